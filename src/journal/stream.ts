import { closeSync, openSync, readSync } from 'node:fs';
import { JournalError } from './journal-error.ts';

const chunkBytes = 1 << 18;
/** No record of a talk comes near this; a longer line is some other file. */
const longestLineBytes = 1 << 24;
const lineFeed = 0x0a;

export interface Streamed {
  lines: number;
  /** Something stands after the last whole line: a record that a power cut tore. */
  torn: boolean;
}

function grown(file: string, buffer: Buffer, used: number, line: number): Buffer {
  if (used < buffer.length) return buffer;
  if (buffer.length >= longestLineBytes) {
    const most = longestLineBytes / 2 ** 20;
    throw new JournalError(file, `a line of more than ${most} MiB; this is no journal`, line);
  }
  const larger = Buffer.allocUnsafe(buffer.length * 2);
  buffer.copy(larger, 0, 0, used);
  return larger;
}

function streamFrom(file: string, handle: number, take: (line: string, number: number) => void): Streamed {
  let buffer = Buffer.allocUnsafe(chunkBytes);
  let used = 0;
  let lines = 0;
  for (;;) {
    buffer = grown(file, buffer, used, lines + 1);
    const read = readSync(handle, buffer, used, buffer.length - used, null);
    if (read === 0) return { lines, torn: used > 0 };
    const end = used + read;
    let start = 0;
    let feed = buffer.indexOf(lineFeed, used);
    while (feed >= 0 && feed < end) {
      lines += 1;
      take(buffer.toString('utf8', start, feed), lines);
      start = feed + 1;
      feed = buffer.indexOf(lineFeed, start);
    }
    buffer.copyWithin(0, start, end);
    used = end - start;
  }
}

/**
 * Hands over the whole lines of a journal one by one, in memory that does not grow with the file.
 * A throw of `take` stops the reading and goes on to the caller.
 * @throws JournalError  when the file cannot be read or holds a line that is no record
 */
export function eachLine(file: string, take: (line: string, number: number) => void): Streamed {
  let handle: number;
  try {
    handle = openSync(file, 'r');
  } catch (error) {
    throw new JournalError(file, `cannot be read (${(error as Error).message})`);
  }
  try {
    return streamFrom(file, handle, take);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'EISDIR' || code === 'EIO') throw new JournalError(file, `cannot be read (${message})`);
    throw error;
  } finally {
    closeSync(handle);
  }
}

/** A parsed line, its form not checked any further: whoever counts over many journals leaves that to `verify`. */
export interface LooseRecord {
  at: string;
  event: Readonly<Record<string, unknown>> & { type: string };
}

function parsedLine(file: string, line: string, number: number): unknown {
  try {
    return JSON.parse(line);
  } catch {
    throw new JournalError(file, 'this is not JSON; the file was changed or damaged here', number);
  }
}

/** @throws JournalError  when the line is no record that this program can count */
export function looseRecord(file: string, line: string, number: number, newest: number): LooseRecord {
  const parsed = parsedLine(file, line, number) as { v?: unknown; at?: unknown; event?: { type?: unknown } };
  if (typeof parsed !== 'object' || parsed === null || typeof parsed.v !== 'number')
    throw new JournalError(file, 'this is no Batchside record (it has no version)', number);
  if (parsed.v > newest) {
    const says = `written by a newer Batchside (format ${parsed.v}); update this one to open it`;
    throw new JournalError(file, says, number);
  }
  const { at, event } = parsed;
  if (typeof at !== 'string' || typeof event !== 'object' || event === null || typeof event.type !== 'string')
    throw new JournalError(file, 'a record without a time or an event', number);
  return { at, event: event as LooseRecord['event'] };
}
