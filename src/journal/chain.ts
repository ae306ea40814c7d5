import type { Problem } from './check-line.ts';
import { lineHash } from './line-hash.ts';
import { noHash } from './record-format.ts';
import type { JournalRecord } from './record-schema.ts';

/** A line as the chain sees it. */
export interface Link {
  text: string;
  record: Pick<JournalRecord, 'seq' | 'prev'>;
}

const span = (first: number, last: number, one = 'line') =>
  first === last ? `${one} ${first}` : `${one}s ${first} to ${last}`;

/** Follows numbers and fingerprints from line to line; keeps the last fingerprint only. */
export class Chain {
  /** Lines that stand where they were written. */
  length = 0;
  head = noHash;

  fits({ record }: Link): boolean {
    return record.seq === this.length + 1 && record.prev === this.head;
  }

  take({ text }: Link): void {
    this.length += 1;
    this.head = lineHash(text);
  }

  /** What is wrong where a link does not fit. The one after it tells which of two neighbours was touched. */
  breakAt(link: Link, after: Link | undefined): Problem {
    const { seq, prev } = link.record;
    const line = this.length + 1;
    const number = `it says that it is record ${seq}, and record ${line} belongs here`;
    if (seq !== line && prev === this.head) return { kind: 'edited', line, says: number };
    if (seq > line)
      return { kind: 'missing', line, says: `${span(line, seq - 1, 'record')} should stand before it` };
    if (seq < line) return this.added(seq, after);
    return this.edited(link, after);
  }

  private added(seq: number, after: Link | undefined): Problem {
    const line = this.length + 1;
    if (after && this.fits(after))
      return { kind: 'added', line, says: `it is a copy of record ${seq}, or forged` };
    const says = `${span(seq, this.length)} came in later: line ${line} is the record ${seq} that was written`;
    return { kind: 'added', line: seq, says };
  }

  private edited({ text }: Link, after: Link | undefined): Problem {
    const line = this.length + 1;
    const before = `line ${line} keeps another fingerprint of it`;
    if (line === 1) return { kind: 'edited', line, says: 'a first record has no line before it to refer to' };
    if (!after)
      return { kind: 'edited', line: line - 1, says: `${before}, unless line ${line} was changed itself` };
    if (after.record.prev === lineHash(text)) return { kind: 'edited', line: line - 1, says: before };
    return { kind: 'edited', line, says: 'the fingerprints before and after it both do not fit' };
  }
}
