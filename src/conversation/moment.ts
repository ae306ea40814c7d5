import { type Book, questionOf, stageOf } from '../rulebook/book.ts';
import { forget } from './ask.ts';
import { change, type Draft, say } from './draft.ts';
import type { State } from './state.ts';

/** Answers of the present stage that held for the moment only, given before the maker was last away for long. */
export function staleMoments(book: Book, state: State, until: string): string[] {
  const back = state.absences.findLast((time) => time <= until);
  if (back === undefined) return [];
  return stageOf(book, state.stage).asks.filter((id) => {
    const answered = state.answers[id];
    return answered !== undefined && answered.at < back && questionOf(book, id).moment === true;
  });
}

/** What was true of the moment is forgotten after a long absence, so that it is asked before the talk goes on. */
export function askTheMomentAgain(draft: Draft): void {
  const moment = staleMoments(draft.book, draft.state, draft.at);
  if (moment.length === 0 || draft.state.held.length > 0) return;
  say(draft, 'session', 'You were away for a while. A few things of the moment first, then we go on.');
  forget(draft, moment);
  change(draft, { asking: undefined });
}
