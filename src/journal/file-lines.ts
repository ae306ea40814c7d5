import { isUtf8 } from 'node:buffer';
import { closeSync, openSync, readSync } from 'node:fs';

export interface FileLine {
  /** Nothing when the bytes are no UTF-8, or when the line was given up as too long. */
  text?: string;
  bytes: number;
  /** What the line ends in: its line feed, the end of the file, or our patience. */
  end: 'feed' | 'file' | 'too-long';
}

const chunkBytes = 1 << 16;
/** Far above any record that was ever written; a file without line feeds must not fill the memory. */
export const mostLineBytes = 1 << 24;

function lineOf(parts: readonly Buffer[], end: FileLine['end']): FileLine {
  const bytes = Buffer.concat(parts);
  const text = isUtf8(bytes) ? { text: bytes.toString('utf8') } : {};
  return { ...text, bytes: bytes.length, end };
}

/** The lines of a file one by one, read in pieces, so that memory does not grow with the file. */
export function* fileLines(file: string): Generator<FileLine, void, undefined> {
  const handle = openSync(file, 'r');
  try {
    let kept: Buffer[] = [];
    let keptBytes = 0;
    for (;;) {
      const chunk = Buffer.allocUnsafe(chunkBytes);
      const piece = chunk.subarray(0, readSync(handle, chunk, 0, chunkBytes, null));
      if (piece.length === 0) break;
      let from = 0;
      for (let feed = piece.indexOf(0x0a); feed >= 0; feed = piece.indexOf(0x0a, from)) {
        yield lineOf([...kept, piece.subarray(from, feed)], 'feed');
        kept = [];
        keptBytes = 0;
        from = feed + 1;
      }
      if (from < piece.length) kept.push(piece.subarray(from));
      keptBytes += piece.length - from;
      if (keptBytes <= mostLineBytes) continue;
      yield { bytes: keptBytes, end: 'too-long' };
      return;
    }
    if (keptBytes > 0) yield lineOf(kept, 'file');
  } finally {
    closeSync(handle);
  }
}
