import { closeSync, fsyncSync, ftruncateSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { dirname } from 'node:path';
import type { TalkEvent } from '../conversation/events.ts';
import { JournalError } from './journal-error.ts';
import { lineHash } from './line-hash.ts';
import type { Journal } from './read.ts';
import { noHash, recordVersion } from './record-format.ts';

interface SystemError {
  code?: string;
}

const reasons: Record<string, string> = {
  ENOSPC: 'the disk is full; free some space and answer again, nothing that was confirmed is lost',
  EDQUOT: 'your disk quota is used up; free some space and answer again',
  EROFS: 'the folder is read-only; name another with --logs DIR',
  EACCES: 'no permission to write here; name another folder with --logs DIR',
  EPERM: 'no permission to write here; name another folder with --logs DIR',
  ENOENT: 'the folder does not exist; create it or name another with --logs DIR',
  EEXIST: 'there is already a journal of this name',
};

export function asJournalError(file: string, error: unknown): JournalError {
  if (error instanceof JournalError) return error;
  const { code } = error as SystemError;
  return new JournalError(file, reasons[code ?? ''] ?? `cannot be written (${(error as Error).message})`);
}

/** Appends records to one journal. A record is on disk when `append` returns. */
export class JournalWriter {
  readonly file: string;
  private readonly handle: number;
  private seq: number;
  private head: string;
  private bytes: number;

  private constructor(file: string, handle: number, seq: number, head: string, bytes: number) {
    this.file = file;
    this.handle = handle;
    this.seq = seq;
    this.head = head;
    this.bytes = bytes;
  }

  /** @throws JournalError  when the file exists already or cannot be made */
  static create(file: string): JournalWriter {
    try {
      const handle = openSync(file, 'wx', 0o600);
      syncFolder(dirname(file));
      return new JournalWriter(file, handle, 0, noHash, 0);
    } catch (error) {
      throw asJournalError(file, error);
    }
  }

  /** Goes on after the last whole record; a torn end is kept in a file beside it first. */
  static resume(journal: Journal): JournalWriter {
    const { file, records, head, wholeBytes, torn } = journal;
    try {
      if (torn !== undefined) writeFileSync(`${file}.torn-after-${records.length}`, torn, { mode: 0o600 });
      const handle = openSync(file, 'r+');
      ftruncateSync(handle, wholeBytes);
      return new JournalWriter(file, handle, records.length, head, wholeBytes);
    } catch (error) {
      throw asJournalError(file, error);
    }
  }

  /** Writes one event and waits until the disk has it. On failure the file is left as it was before. */
  append(event: TalkEvent): void {
    const { at, ...body } = event;
    const line = JSON.stringify({ v: recordVersion, seq: this.seq + 1, at, prev: this.head, event: body });
    const data = Buffer.from(`${line}\n`, 'utf8');
    try {
      const written = writeSync(this.handle, data, 0, data.length, this.bytes);
      // A filling disk takes part of a write without an error.
      if (written < data.length) throw Object.assign(new Error('short write'), { code: 'ENOSPC' });
      fsyncSync(this.handle);
    } catch (error) {
      ftruncateSync(this.handle, this.bytes);
      throw asJournalError(this.file, error);
    }
    this.seq += 1;
    this.head = lineHash(line);
    this.bytes += data.length;
  }

  close(): void {
    closeSync(this.handle);
  }
}

/** Makes a new directory entry durable; platforms that cannot open a folder do it by themselves. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, 'r');
    fsyncSync(handle);
    closeSync(handle);
  } catch (error) {
    const { code } = error as SystemError;
    if (code !== 'EISDIR' && code !== 'EPERM' && code !== 'EACCES' && code !== 'EINVAL') throw error;
  }
}
