import type { Answer } from './events.ts';

/** How a typed line was taken as the answer to one question. */
export type Reading =
  | { sure: Answer }
  | { says: string; meant: Answer; typed?: Answer }
  | { notUnderstood: string };

/** A line without case and punctuation, for comparing with fixed words. */
export function bare(text: string): string {
  return text
    .toLowerCase()
    .replace(/[’'.!,]/g, '')
    .trim();
}
