import type { Book } from '../../rulebook/book.ts';
import { closest } from './match-words.ts';

/** The stage that is meant, by its id or its title; slips of typing are forgiven. */
export function stageNamed(book: Book, name: string): string | undefined {
  const stages = book.stages.map(({ stage, title }) => ({
    id: stage,
    words: [stage.replaceAll('-', ' '), title],
  }));
  return closest(name, stages);
}
