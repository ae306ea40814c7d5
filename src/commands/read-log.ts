import { existsSync, statSync } from 'node:fs';
import { safeLine } from '../conversation/safe-text.ts';
import { type Journal, type Numbered, numberedEvents, readJournal } from '../journal/read.ts';
import { UsageError } from './usage-error.ts';

/** Reads a journal; what the system says against it is said in one line. @throws JournalError  where it is damaged */
export function readWhole(file: string): Journal {
  try {
    return readJournal(file);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    throw new UsageError(`The log ${safeLine(file)} cannot be read: ${message}`);
  }
}

/** Reads one log for looking at it. @throws UsageError  where there is none  @throws JournalError  where it is damaged */
export function readLog(file: string | undefined, usage: string): { journal: Journal; records: Numbered[] } {
  if (file === undefined) throw new UsageError(usage);
  const name = safeLine(file);
  if (!existsSync(file)) throw new UsageError(`There is no log ${name}.`);
  if (statSync(file).isDirectory()) throw new UsageError(`${name} is a folder; name one log in it. ${usage}`);
  const journal = readWhole(file);
  const records = numberedEvents(journal);
  if (records.length === 0) throw new UsageError(`The log ${name} is empty.`);
  if (journal.torn !== undefined)
    process.stderr.write(
      `The end of ${name} is torn (a power cut, a full disk); it counts up to record ${records.length}.\n`,
    );
  return { journal, records };
}
