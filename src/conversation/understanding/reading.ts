import type { Answer } from '../events.ts';

/** Answers between which the maker is asked to choose, each with the word that picks it. */
export type Either = readonly { say: string; answer: Answer }[];

/** How a typed line was taken as the answer to one question. */
export type Reading =
  | { sure: Answer }
  | { says: string; meant: Answer; typed?: Answer; either?: Either }
  | { notUnderstood: string };

/** A line without case and punctuation, for comparing with fixed words. */
export function bare(text: string): string {
  return text
    .toLowerCase()
    .replace(/[’'.!,]/g, '')
    .trim();
}
