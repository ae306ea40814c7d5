import { doneWell, findingsOf } from '../review/findings.ts';
import { tellStory } from '../review/story.ts';
import { openBook } from './open-book.ts';
import { readLog } from './read-log.ts';

/** `batchside review LOG --json`: what the checks find, and what was in order; nothing is written. */
export async function reviewJson(file: string, { rules }: { rules?: string }): Promise<number> {
  const { records } = readLog(file, 'Say which: batchside review LOG --json');
  const book = await openBook(rules);
  const story = tellStory(book, records);
  const findings = findingsOf(book, story).map(({ around, trace: _trace, ...finding }) => ({
    ...finding,
    records: around.map(({ record }) => record),
  }));
  process.stdout.write(
    `${JSON.stringify({ batch: story.batch, findings, doneWell: doneWell(book, story) })}\n`,
  );
  return 0;
}
