import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { lineHash } from '../../src/journal/line-hash.ts';

/** The demo journal that is damaged here in every way, line by line. */
export const demoFile = new URL('../../transcripts-demo/dangerous-rig-stopped.ndjson', import.meta.url)
  .pathname;
export const demo = readFileSync(demoFile, 'utf8').slice(0, -1).split('\n');

export const newFolder = () => mkdtempSync(join(tmpdir(), 'verify-'));

export function fileOf(content: string | Buffer, folder = newFolder(), name = 'b.ndjson'): string {
  const file = join(folder, name);
  writeFileSync(file, content);
  return file;
}

export const whole = (lines: readonly string[]) => `${lines.join('\n')}\n`;

/** The lines with number and fingerprint of each set right: what somebody does who knows the format. */
export function forged(lines: readonly string[]): string[] {
  let prev = '0'.repeat(64);
  return lines.map((line, index) => {
    const made = JSON.stringify({ ...(JSON.parse(line) as object), seq: index + 1, prev });
    prev = lineHash(made);
    return made;
  });
}

export const swapped = (number: number, change: (line: string) => string) =>
  demo.map((line, index) => (index + 1 === number ? change(line) : line));
export const without = (first: number, last = first) =>
  demo.filter((_line, index) => index + 1 < first || index + 1 > last);
export const inserted = (after: number, ...lines: string[]) => [
  ...demo.slice(0, after),
  ...lines,
  ...demo.slice(after),
];
