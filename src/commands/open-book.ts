import { readFileSync } from 'node:fs';
import type { Book } from '../rulebook/book.ts';

/** The book that was compiled beside the program, or, for another folder of rules, one read and checked now. */
export async function openBook(rulesFolder: string | undefined): Promise<Book> {
  if (rulesFolder === undefined) {
    return JSON.parse(readFileSync(new URL('./rulebook.json', import.meta.url), 'utf8')) as Book;
  }
  const [{ loadRules }, { readRuleFiles }] = await Promise.all([
    import('../rulebook/load-rules.ts'),
    import('./read-rules.ts'),
  ]);
  const { files, hash } = readRuleFiles(rulesFolder);
  return loadRules(files, hash).book;
}
