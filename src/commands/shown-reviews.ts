import { closeSync, fstatSync, openSync, readSync } from 'node:fs';
import type { Turn } from '../conversation/effects.ts';
import { JournalWriter } from '../journal/append.ts';
import { journalsIn } from '../journal/folder.ts';
import type { Book } from '../rulebook/book.ts';
import type { Clock } from './clock.ts';

/** The end of a journal that is looked at first for a review; a signed review is its last record. */
const tailBytes = 16_384;

function readEnd(handle: number, size: number, bytes: number): string {
  const end = Buffer.alloc(Math.min(size, bytes));
  readSync(handle, end, 0, end.length, size - end.length);
  return end.toString('utf8');
}

/** The last whole line of a file; a long comment, or a torn end, may need more than one look. */
function lastLine(file: string): string {
  const handle = openSync(file, 'r');
  try {
    const { size } = fstatSync(handle);
    for (let bytes = tailBytes; ; bytes *= 8) {
      const end = readEnd(handle, size, bytes);
      const whole = end.slice(0, Math.max(0, end.lastIndexOf('\n')));
      const line = whole.lastIndexOf('\n');
      if (line >= 0 || bytes >= size) return whole.slice(line + 1);
    }
  } finally {
    closeSync(handle);
  }
}

/** Whether the last record is one of a review, so that the maker may not have seen it yet. */
function endsInReview(file: string): boolean {
  return /"event":\{"type":"(CommentMade|CheckSeen|ReviewSigned)"/.test(lastLine(file));
}

async function showOne(book: Book, file: string, clock: Clock, show: (turn: Turn) => void): Promise<void> {
  const [{ reviewTurns }, { lockJournal }, { numberedEvents, readJournal }] = await Promise.all([
    import('../review/review-turns.ts'),
    import('../journal/lock.ts'),
    import('../journal/read.ts'),
  ]);
  const lock = await lockJournal(file);
  if (!lock) return;
  try {
    const journal = readJournal(file);
    const turns = reviewTurns(book, numberedEvents(journal));
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
export async function showReviews(
  book: Book,
  folder: string,
  clock: Clock,
  show: (turn: Turn) => void,
): Promise<void> {
  for (const file of journalsIn(folder)) {
    try {
      if (endsInReview(file)) await showOne(book, file, clock, show);
    } catch {
      // A log that cannot be read is named where it is opened; a review in it must not keep anybody from the tank.
    }
  }
}
