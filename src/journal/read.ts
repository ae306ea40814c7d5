import { readFileSync } from 'node:fs';
import type { TalkEvent } from '../conversation/events.ts';
import { JournalError } from './journal-error.ts';
import { lineHash } from './line-hash.ts';
import { parseLine } from './parse-line.ts';
import { noHash } from './record-format.ts';
import { type JournalRecord, recordSchema } from './record-schema.ts';

export interface Journal {
  file: string;
  records: JournalRecord[];
  /** Hash of the last whole line, for the next record's `prev`. */
  head: string;
  /** Bytes up to the end of the last whole line. */
  wholeBytes: number;
  /** What stood after the last whole line: a record that a power cut tore. */
  torn?: string;
}

function recordOf(file: string, line: string, number: number): JournalRecord {
  const checked = recordSchema.safeParse(parseLine(file, line, number));
  if (checked.success) return checked.data as JournalRecord;
  const [issue] = checked.error.issues;
  throw new JournalError(
    file,
    `${issue?.path.join('.') ?? 'record'}: ${issue?.message ?? 'is not valid'}`,
    number,
  );
}

function checkPlace(file: string, record: JournalRecord, prev: string, number: number): void {
  if (record.seq !== number) {
    throw new JournalError(file, `record ${record.seq} stands where record ${number} belongs`, number);
  }
  if (record.prev !== prev) {
    throw new JournalError(
      file,
      'the line before it was changed after it was written (its hash does not match)',
      number,
    );
  }
}

/**
 * Reads a journal and checks form, sequence and hash chain.
 * A torn last line is set aside, not an error; anything bad before it is.
 * @throws JournalError  naming the first bad line
 */
export function readJournal(file: string): Journal {
  const bytes = readFileSync(file);
  const wholeBytes = bytes.lastIndexOf(0x0a) + 1;
  const whole = bytes.subarray(0, wholeBytes).toString('utf8');
  const lines = whole === '' ? [] : whole.slice(0, -1).split('\n');
  const records: JournalRecord[] = [];
  let head = noHash;
  for (const [index, line] of lines.entries()) {
    const record = recordOf(file, line, index + 1);
    checkPlace(file, record, head, index + 1);
    records.push(record);
    head = lineHash(line);
  }
  const journal: Journal = { file, records, head, wholeBytes };
  if (wholeBytes < bytes.length) journal.torn = bytes.subarray(wholeBytes).toString('utf8');
  return journal;
}

/** An event with the number of its record. */
export interface Numbered {
  seq: number;
  event: TalkEvent;
}

export function numberedEvents(journal: Journal): Numbered[] {
  return journal.records.map(({ seq, at, event }) => ({ seq, event: { ...event, at } as TalkEvent }));
}

export function eventsOf(journal: Journal): TalkEvent[] {
  return numberedEvents(journal).map(({ event }) => event);
}
