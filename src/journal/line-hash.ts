import { createHash } from 'node:crypto';

/** SHA-256 of a journal line as its bytes stand in the file, without the line feed; hex. */
export function lineHash(line: string): string {
  return createHash('sha256').update(line, 'utf8').digest('hex');
}
