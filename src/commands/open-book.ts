import { readFileSync } from 'node:fs';
import type { Book } from '../rulebook/book.ts';
import { UsageError } from './usage-error.ts';

/** The book that was compiled beside the program, or, for another folder of rules, one read and checked now. */
export async function openBook(rulesFolder: string | undefined): Promise<Book> {
  if (rulesFolder === undefined) {
    return JSON.parse(readFileSync(new URL('./rulebook.json', import.meta.url), 'utf8')) as Book;
  }
  const [{ loadRules }, { readRuleFiles }] = await Promise.all([
    import('../rulebook/load-rules.ts'),
    import('./read-rules.ts'),
  ]);
  let read: ReturnType<typeof readRuleFiles>;
  try {
    read = readRuleFiles(rulesFolder);
  } catch (error) {
    throw new UsageError(`the rules in ${rulesFolder} cannot be read: ${(error as Error).message}`);
  }
  const { files, hash } = read;
  return loadRules(files, hash).book;
}
