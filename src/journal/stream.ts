import { closeSync, openSync, readSync } from 'node:fs';
import { mostLineBytes } from './file-lines.ts';
import { JournalError } from './journal-error.ts';
import { parseLine } from './parse-line.ts';

/** A parsed line whose form is not checked any further: whoever counts over many journals leaves that to `verify`. */
export interface LooseRecord {
  at: string;
  event: Readonly<Record<string, unknown>> & { type: string };
}

/** @throws JournalError  when the line is no record that this program can count */
function looseRecord(file: string, line: string, number: number): LooseRecord {
  const { at, event } = parseLine(file, line, number) as { at?: unknown; event?: { type?: unknown } | null };
  if (typeof at !== 'string' || typeof event !== 'object' || event === null || typeof event.type !== 'string')
    throw new JournalError(file, 'a record without a time or an event', number);
  return { at, event: event as LooseRecord['event'] };
}

function systemProblem(file: string, error: unknown): unknown {
  const { errno, message } = error as NodeJS.ErrnoException;
  return typeof errno === 'number' ? new JournalError(file, `cannot be read (${message})`) : error;
}

const chunkBytes = 1 << 18;
const lineFeed = 0x0a;

/** A larger buffer where a line fills the present one. */
function roomIn(file: string, buffer: Buffer<ArrayBuffer>, used: number, line: number): Buffer<ArrayBuffer> {
  if (used < buffer.length) return buffer;
  if (used >= mostLineBytes) throw new JournalError(file, 'this line has no end; this is no journal', line);
  const larger = Buffer.allocUnsafe(buffer.length * 2);
  buffer.copy(larger, 0, 0, used);
  return larger;
}

/** Buffers are used again and lines cut out of them without a copy: `fileLines` looks closer and takes thrice as long. */
function readLines(file: string, handle: number, take: (line: string, number: number) => void): void {
  let buffer = Buffer.allocUnsafe(chunkBytes);
  let used = 0;
  let number = 0;
  for (;;) {
    buffer = roomIn(file, buffer, used, number + 1);
    const end = used + readSync(handle, buffer, used, buffer.length - used, null);
    if (end === used) return;
    let start = 0;
    // What lies beyond `end` is left over from before and no part of the file.
    const whole = buffer.subarray(0, end);
    for (let feed = whole.indexOf(lineFeed, used); feed >= 0; feed = whole.indexOf(lineFeed, start)) {
      number += 1;
      take(whole.toString('utf8', start, feed), number);
      start = feed + 1;
    }
    buffer.copyWithin(0, start, end);
    used = end - start;
  }
}

/**
 * Hands over the whole lines of a journal, parsed by whoever takes them, in memory that does not grow with the file.
 * What a power cut left after the last whole line is passed over.
 * @throws JournalError  when the file cannot be read or is no text
 */
export function eachLine(file: string, take: (line: string, number: number) => void): void {
  let handle: number | undefined;
  try {
    handle = openSync(file, 'r');
    readLines(file, handle, take);
  } catch (error) {
    throw systemProblem(file, error);
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/**
 * The records of a journal one by one, the first of them the opening of its batch.
 * @throws JournalError  naming the first line that is no record
 */
export function eachRecord(file: string, take: (record: LooseRecord) => void): void {
  let records = 0;
  eachLine(file, (line, number) => {
    const record = looseRecord(file, line, number);
    if (number === 1 && record.event.type !== 'BatchOpened')
      throw new JournalError(file, 'does not begin with the opening of a batch', number);
    records += 1;
    take(record);
  });
  if (records === 0) throw new JournalError(file, 'holds no record');
}
