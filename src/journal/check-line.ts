import type { FileLine } from './file-lines.ts';
import { type JournalRecord, recordSchema } from './record-schema.ts';
import { upgrade } from './upgrade.ts';

/** What can be wrong with a line, and with what follows from it. */
export const problems = {
  unreadable: 'The file cannot be read at all.',
  damaged: 'The bytes are broken: by a disk, by a transfer, or by an editor that saved it otherwise.',
  'not-a-record': 'This is no journal, or a line from elsewhere got into it.',
  newer: 'Nothing is wrong with that; update this program, and check again.',
  'not-valid': 'It was changed by hand, or another program wrote it.',
  edited: 'What this line says now is not what was recorded.',
  missing: 'Records were taken out.',
  added: 'Records were put in that were not written there.',
  'no-talk':
    'Every line is as it was written, but the records do not make a talk that this program can follow.',
  'not-the-same':
    'Lines were cut off the end, the last line was changed, or the whole file was written anew.',
} as const;

export type ProblemKind = keyof typeof problems;

export interface Problem {
  kind: ProblemKind;
  /** Nothing when it is about the file as a whole. */
  line?: number;
  says: string;
}

type Fault = Omit<Problem, 'line'>;

/** A line as a record of the present version, and the version that it was written in. */
export type CheckedLine = { record: JournalRecord; version: number } | Fault;

function faultOfText(text: string): Fault {
  if (text === '') return { kind: 'added', says: 'an empty line stands here' };
  return { kind: 'damaged', says: 'this is not JSON' };
}

function parsedOf(text: string): { parsed: unknown } | undefined {
  try {
    return { parsed: JSON.parse(text) as unknown };
  } catch {
    return undefined;
  }
}

/** Looks at one line by itself; its place in the chain is not looked at. */
export function checkLine({ text, end }: FileLine): CheckedLine {
  if (end === 'too-long') return { kind: 'not-a-record', says: 'the line is longer than any record' };
  if (text === undefined) return { kind: 'damaged', says: 'some of its bytes are no text (UTF-8)' };
  if (text.endsWith('\r')) return { kind: 'damaged', says: 'its line end was changed to CR LF' };
  const read = parsedOf(text);
  if (!read) return faultOfText(text);
  const upgraded = upgrade(read.parsed);
  if ('newer' in upgraded)
    return { kind: 'newer', says: `written by a newer Batchside (format ${upgraded.newer})` };
  if ('unversioned' in upgraded)
    return { kind: 'not-a-record', says: 'this is no Batchside record (it has no version)' };
  const checked = recordSchema.safeParse(upgraded.record);
  if (checked.success) {
    const { v } = read.parsed as { v: number };
    return { record: checked.data as JournalRecord, version: v };
  }
  const [issue] = checked.error.issues;
  const where = issue?.path.join('.') || 'record';
  return { kind: 'not-valid', says: `${where}: ${issue?.message ?? 'is not valid'}` };
}
