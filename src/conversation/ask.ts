import { type Book, hazardOf, hazardsAt, leavesFrom, questionOf, stageOf } from '../rulebook/book.ts';
import { rootsOf } from '../rulebook/roots.ts';
import { askKey, hazardKey, leaveKey } from '../rulebook/rule-keys.ts';
import { change, type Draft, say, without } from './draft.ts';
import { enterStage } from './enter-stage.ts';
import { dropOffered, giveOffered } from './offered.ts';
import type { State } from './state.ts';
import { minutesIn, showMinutes } from './time.ts';
import { nextInTrouble } from './trouble/next-in-trouble.ts';
import { goOnInTrouble } from './trouble/talk-of-trouble.ts';

/** Whether a question has no answer and its condition, if it has one, holds. */
export function isOpen(book: Book, state: State, question: string): boolean {
  if (state.answers[question]) return false;
  return questionOf(book, question).when === undefined || state.true.includes(askKey(question));
}

/** What only serves to decide is asked only while it still can. */
function isWorthAsking(book: Book, state: State, question: string): boolean {
  return questionOf(book, question).purpose === 'record' || state.deciding.includes(question);
}

/** No stage is left while a stop that belongs to it is undecided: what it still waits for is asked. */
function askedByStops(book: Book, state: State): string[] {
  const waiting = hazardsAt(book, state.stage).flatMap(
    (hazard) => state.undecided[hazardKey(hazard.id)] ?? [],
  );
  return [...new Set(waiting.flatMap((fact) => rootsOf(book, fact)))];
}

/** The question to ask next: what clears a stop, else the stage's own in the order of its file. */
export function nextQuestion(book: Book, state: State): string | undefined {
  if (state.alarm) return 'alarm';
  const [hold] = state.held;
  if (!hold && state.trouble) {
    const next = nextInTrouble(state.trouble);
    return next === 'weigh' ? undefined : next.ask;
  }
  if (!hold) {
    return (
      stageOf(book, state.stage).asks.find(
        (question) => isOpen(book, state, question) && isWorthAsking(book, state, question),
      ) ?? askedByStops(book, state).find((question) => isOpen(book, state, question))
    );
  }
  const { clear } = hazardOf(book, hold.stop);
  if (clear.session === 'new' && state.session === hold.session) return undefined;
  return clear.ask.find((question) => isOpen(book, state, question));
}

function beginWait(draft: Draft, question: string, minutes: number): void {
  const { waitFor, ask } = questionOf(draft.book, question);
  dropOffered(draft, [question]);
  const what = waitFor ?? `the next look: ${ask}`;
  const fixed = draft.state.held.length > 0 || draft.state.firm.includes(question);
  change(draft, {
    asking: undefined,
    waiting: { question, since: draft.at, minutes, for: what, fixed },
  });
  say(draft, 'wait', `Wait ${showMinutes(minutes)}: ${what}`, { id: question });
  draft.effects.push({ do: 'setTimer', minutes });
}

function ask(draft: Draft, question: string): void {
  const delay = draft.state.delays[question] ?? questionOf(draft.book, question).after;
  if (delay !== undefined && !draft.state.waited.includes(question)) {
    if (draft.state.waiting?.question === question) change(draft, { asking: undefined });
    else beginWait(draft, question, minutesIn(delay));
    return;
  }
  change(draft, { asking: question, waiting: undefined });
  giveOffered(draft, question);
}

/** Forgets answers so that they are asked anew; what was told on the strength of them may be told again. */
export function forget(draft: Draft, questions: readonly string[]): void {
  dropOffered(draft, questions);
  change(draft, {
    answers: without(draft.state.answers, questions),
    waited: draft.state.waited.filter((question) => !questions.includes(question)),
  });
}

/** Which stage asks a question, the present one first. */
function stageAsking(book: Book, state: State, question: string): string | undefined {
  if (stageOf(book, state.stage).asks.includes(question)) return state.stage;
  return book.stages.find((stage) => stage.asks.includes(question))?.stage;
}

/** What keeps every way out undecided: questions answered "not sure" or left empty. */
function missingAnswers(book: Book, state: State): string[] {
  const undecided = leavesFrom(book, state.stage).flatMap(
    (_leave, index) => state.undecided[leaveKey(state.stage, index)] ?? [],
  );
  const roots = [...new Set(undecided.flatMap((fact) => rootsOf(book, fact)))];
  return roots.filter((question) => state.answers[question] && state.answers[question].status !== 'known');
}

/** No way on is decided: what was answered "not sure" and decides it is asked again, here or in its own stage. */
function askWhatIsMissing(draft: Draft): void {
  const { book, state } = draft;
  const missing = missingAnswers(book, state);
  const here = missing.filter((question) => stageAsking(book, state, question) === state.stage);
  if (here.length > 0) {
    const questions = here.map((question) => questionOf(book, question).ask).join(' / ');
    say(draft, 'asks-back', `I cannot go on without an answer to this. ${questions}`, { signal: 'NOTICE' });
    forget(draft, here);
    // What only serves to decide counts as open again after the next run of the rules: it is asked all the same.
    const next = nextQuestion(book, draft.state) ?? here[0];
    if (next) ask(draft, next);
    return;
  }
  const [first] = missing;
  const owner = (first && stageAsking(book, state, first)) ?? state.stage;
  say(draft, 'asks-back', 'I cannot go on with what I know. We go through this again.', { signal: 'NOTICE' });
  enterStage(draft, owner);
}

function leaveStage(draft: Draft): void {
  const { book, state } = draft;
  const ways = leavesFrom(book, state.stage);
  const index = ways.findIndex((way, at) => !way.when || state.true.includes(leaveKey(state.stage, at)));
  const way = ways[index];
  if (!way) {
    askWhatIsMissing(draft);
    return;
  }
  if (way.say) say(draft, 'advice', way.say);
  if (way.to === 'end') endBatch(draft, 'finished');
  else enterStage(draft, way.to);
}

export function endBatch(draft: Draft, how: NonNullable<State['ended']>): void {
  change(draft, { ended: how, asking: undefined, waiting: undefined, doubt: undefined });
  const words = {
    finished: 'The batch is closed. Its log is complete.',
    rejected: 'The batch ends here and the log says why.',
    abandoned:
      'The batch is given up and the log says so. Leave the rig safe: heat off, methanol closed, everything labelled.',
  };
  say(draft, 'end', words[how]);
  draft.effects.push({ do: 'close' });
}

/** Goes on with the talk: the next question, a wait, or the way out of the stage. */
export function goOn(draft: Draft): void {
  if (draft.state.ended || draft.state.evaluating) return;
  if (draft.state.trouble && !draft.state.alarm && draft.state.held.length === 0) {
    goOnInTrouble(draft, (question) => ask(draft, question));
    return;
  }
  const next = nextQuestion(draft.book, draft.state);
  if (next) ask(draft, next);
  else if (draft.state.held.length > 0) change(draft, { asking: undefined });
  else leaveStage(draft);
}
