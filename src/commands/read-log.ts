import { existsSync, statSync } from 'node:fs';
import { eventsOf, type Journal, readJournal } from '../journal/read.ts';
import type { Numbered } from '../review/story.ts';
import { UsageError } from './usage-error.ts';

/** Reads one log for looking at it. @throws UsageError  where there is none  @throws JournalError  where it is damaged */
export function readLog(file: string | undefined, usage: string): { journal: Journal; records: Numbered[] } {
  if (file === undefined) throw new UsageError(usage);
  if (!existsSync(file)) throw new UsageError(`There is no log ${file}.`);
  if (statSync(file).isDirectory()) throw new UsageError(`${file} is a folder; name one log in it. ${usage}`);
  const journal = readJournal(file);
  const records = eventsOf(journal).map((event, index) => ({
    seq: journal.records[index]?.seq ?? index + 1,
    event,
  }));
  if (records.length === 0) throw new UsageError(`The log ${file} is empty.`);
  return { journal, records };
}
