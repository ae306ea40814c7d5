import type { Book } from '../rulebook/book.ts';

/** What a mentor may say beside the question of a review. */
export type Aside =
  | { say: 'comment'; words: string; about: { record?: number } }
  | { say: 'show'; stage: string }
  | { say: 'findings' | 'back' | 'leave' | 'help' };

const comment = /^comment(?:\s+(?:on\s+)?(?:record\s+)?(?<record>\d+))?\s*:\s*(?<words>\S.*)$/is;
const show = /^show\s+(?<stage>\S.*)$/i;

export function readAside(text: string): Aside | undefined {
  const commented = comment.exec(text)?.groups;
  if (commented?.words) {
    const about = commented.record ? { record: Number(commented.record) } : {};
    return { say: 'comment', words: commented.words, about };
  }
  const stage = show.exec(text)?.groups?.stage;
  if (stage) return { say: 'show', stage };
  if (/^(pause|p|leave|stop|quit|exit)$/i.test(text)) return { say: 'leave' };
  if (/^findings$/i.test(text)) return { say: 'findings' };
  if (/^(back|<)$/i.test(text)) return { say: 'back' };
  return /^(\?|help)$/i.test(text) ? { say: 'help' } : undefined;
}

const spaced = (words: string) => words.toLowerCase().replaceAll('-', ' ');

/** Whether words are the very name of a stage: where words are asked for, anything less may be the answer. */
export function isNameOfStage(book: Book, words: string): boolean {
  return book.stages.some(({ stage, title }) => [stage, title].map(spaced).includes(spaced(words)));
}

export const asidesInWords = [
  'comment 57: WORDS   a comment to record 57 (the numbers stand before the answers)',
  'comment: WORDS      a comment to the batch as a whole',
  'show STAGE          the answers of a stage      findings  the list again',
  'back                the question before         pause  leaves the review; what you wrote is kept,',
  '                    sign it another time',
].join('\n');
