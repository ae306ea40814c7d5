import { type Book, questionOf } from '../../rulebook/book.ts';
import type { State } from '../state.ts';
import { minutesFrom } from './clock-time.ts';
import type { ReadContext } from './read-context.ts';
import type { Reading } from './reading.ts';

/** Clocks and watches differ by a little. */
const clocksDiffer = 5;

function stageIndex(book: Book, question: string): number {
  return book.stages.findIndex(({ asks }) => asks.includes(question));
}

/** A time that lies before one given earlier in the batch, or still to come, is asked about before it counts. */
export function heldAgainstClock(
  book: Book,
  state: State,
  question: string,
  reading: Reading,
  { now }: ReadContext,
): Reading {
  if (!('sure' in reading) || reading.sure.kind !== 'clock') return reading;
  const { time } = reading.sure;
  if (now && minutesFrom(now, time) > clocksDiffer) {
    return { says: `That is still to come, it is ${now} here. Was it at ${time}?`, meant: reading.sure };
  }
  const last = state.past.findLast((given) => given.question !== question && given.answer.kind === 'clock');
  // A stage that is gone through again may be on another day.
  if (last && stageIndex(book, last.question) >= stageIndex(book, question)) return reading;
  if (last?.answer.kind !== 'clock' || minutesFrom(last.answer.time, time) >= 0) return reading;
  const { ask, short } = questionOf(book, last.question);
  return {
    says: `That is before ${last.answer.time} ("${short ?? ask}"). Was it at ${time}?`,
    meant: reading.sure,
  };
}
