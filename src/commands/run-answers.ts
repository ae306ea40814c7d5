import type { State } from '../conversation/state.ts';
import type { Book } from '../rulebook/book.ts';
import { hazardOf } from '../rulebook/book.ts';
import type { PreparedAnswers } from './answers-file.ts';
import type { FixedClock } from './clock.ts';
import type { Session } from './session.ts';
import { UsageError } from './usage-error.ts';

/** A talk that asks on and on is a mistake in the rules or in the answers. */
const mostLines = 2000;

/** Lines at one question without an answer: notes, requests, corrections; more is an answer that is not taken. */
const mostTries = 20;

function wentOn(before: State, after: State): boolean {
  return after.turn > before.turn || after.asking !== before.asking;
}

function notTaken(question: string, said: string, session: Session): string {
  const why = session.state.doubt ? ` It is asked back: ${session.state.doubt.says}` : '';
  return `the answer "${said}" to "${question}" is not taken.${why}`;
}

function isGuard(book: Book, session: Session): boolean {
  const [hold] = session.state.held;
  return (
    hold !== undefined &&
    hazardOf(book, hold.stop).signal === 'DANGER' &&
    session.state.doubt?.typed === undefined &&
    session.state.doubt?.either === undefined
  );
}

/**
 * Answers a talk from prepared answers, along the same path as a person's typed lines.
 * @returns the question that had no answer left; nothing when the talk came to its end or is held
 */
export async function runAnswers(
  book: Book,
  session: Session,
  answers: PreparedAnswers,
  clock: FixedClock,
): Promise<string | undefined> {
  session.gallon = answers.gallon;
  let tries = 0;
  for (let line = 0; line < mostLines; line += 1) {
    const { state } = session;
    if (state.ended || state.paused) return undefined;
    if (!state.asking && state.waiting) {
      clock.pass(state.waiting.minutes);
      await session.endWait();
      continue;
    }
    if (!state.asking) return undefined;
    const confirms = state.doubt && isGuard(book, session) ? 'yes' : undefined;
    if (confirms) {
      await session.type(confirms);
      continue;
    }
    const answer = answers.take(state.asking);
    if (answer === undefined) return state.asking;
    clock.pass(answer.afterMinutes);
    await session.type(answer.say);
    tries = wentOn(state, session.state) ? 0 : tries + 1;
    if (tries > mostTries) throw new UsageError(notTaken(state.asking, answer.say, session));
  }
  throw new Error(`the talk did not come to an end within ${mostLines} answers`);
}
