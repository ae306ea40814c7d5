/** A journal that cannot be read or written; the message says which file, which line and what to do. */
export class JournalError extends Error {
  override readonly name = 'JournalError';
  readonly file: string;
  readonly line: number | undefined;

  constructor(file: string, says: string, line?: number) {
    super(line === undefined ? `${file}: ${says}` : `${file}, line ${line}: ${says}`);
    this.file = file;
    this.line = line;
  }
}
