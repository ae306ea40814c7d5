import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { Turn } from '../conversation/effects.ts';
import type { TalkEvent } from '../conversation/events.ts';
import { JournalWriter } from '../journal/append.ts';
import { journalsIn } from '../journal/folder.ts';
import type { Clock } from './clock.ts';

/** The end of a journal that is looked at for a review; a signed review is its last record. */
const tailBytes = 16_384;

function tailOf(file: string): string {
  const handle = openSync(file, 'r');
  try {
    const { size } = fstatSync(handle);
    const tail = Buffer.alloc(Math.min(size, tailBytes));
    readSync(handle, tail, 0, tail.length, size - tail.length);
    return tail.toString('utf8');
  } finally {
    closeSync(handle);
  }
}

/** Whether the last record is one of a review, so that the maker may not have seen it yet. */
function endsInReview(file: string): boolean {
  const last = tailOf(file).trimEnd().split('\n').at(-1) ?? '';
  return /"event":\{"type":"(CommentMade|CheckSeen|ReviewSigned)"/.test(last);
}

type TurnsOf = (events: readonly TalkEvent[]) => Turn[];

async function showOne(
  file: string,
  turnsOf: TurnsOf,
  clock: Clock,
  show: (turn: Turn) => void,
): Promise<void> {
  const [{ lockJournal }, { eventsOf, readJournal }] = await Promise.all([
    import('../journal/lock.ts'),
    import('../journal/read.ts'),
  ]);
  const lock = await lockJournal(file);
  if (!lock) return;
  try {
    const journal = readJournal(file);
    const events = eventsOf(journal);
    const turns = turnsOf(events.slice(events.findLastIndex(({ type }) => type === 'ReviewShown') + 1));
    if (turns.length === 0) return;
    for (const turn of turns) show(turn);
    const writer = JournalWriter.resume(journal);
    writer.append({ type: 'ReviewShown', at: clock.now() });
    writer.close();
  } finally {
    lock.release();
  }
}

/** Shows the maker what a mentor wrote since the last start, and notes in the log that it was shown. */
export async function showReviews(folder: string, clock: Clock, show: (turn: Turn) => void): Promise<void> {
  for (const file of journalsIn(folder)) {
    try {
      if (!endsInReview(file)) continue;
      const { reviewTurns } = await import('../review/review-turns.ts');
      await showOne(file, reviewTurns, clock, show);
    } catch {
      // A log that cannot be read is named where it is opened; a review in it must not keep anybody from the tank.
    }
  }
}
