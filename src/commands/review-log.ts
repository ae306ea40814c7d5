import { JournalWriter } from '../journal/append.ts';
import { lockJournal } from '../journal/lock.ts';
import { type ReviewOutside, ReviewTalk } from '../review/review-talk.ts';
import { tellStory } from '../review/story.ts';
import { realClock } from './clock.ts';
import { openFace } from './faces.ts';
import { openBook } from './open-book.ts';
import { program } from './program.ts';
import { readLog } from './read-log.ts';
import { UsageError } from './usage-error.ts';

/** `batchside review LOG`: a mentor walks through a log; comments and the signature are appended to it. */
export async function reviewLog(file: string, options: { plain: boolean; rules?: string }): Promise<number> {
  const lock = await lockJournal(file);
  if (!lock) throw new UsageError(`${file} is open in another window. Close it there first.`);
  const { journal, records } = readLog(file, 'Say which: batchside review LOG');
  const book = await openBook(options.rules);
  const writer = JournalWriter.resume(journal);
  const story = tellStory(book, records);
  const append: ReviewOutside['append'] = (event) => writer.append({ ...event, at: realClock.now() });
  const face = await openFace(options.plain);
  const talk = new ReviewTalk(book, story, program, {
    turn: (turn) => face.turn(turn),
    changed: () => face.changed(),
    append,
  });
  talk.begin();
  await face.run(talk, []);
  lock.release();
  writer.close();
  return 0;
}
