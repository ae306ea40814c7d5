import { readFileSync } from 'node:fs';
import type { Book } from '../rulebook/book.ts';
import { UsageError } from './usage-error.ts';

/** The parts of the book that a talk can begin without, and the file beside the program that holds them. */
type Later = Pick<Book, 'diagnosis' | 'review'>;
type CompiledBook = Omit<Book, keyof Later> & { later: string };

function readCompiled(name: string): unknown {
  return JSON.parse(readFileSync(new URL(`./${name}`, import.meta.url), 'utf8'));
}

/** Reads causes of trouble and checks of a review when they are first looked at: most starts need neither. */
function withLater(first: Omit<Book, keyof Later>, name: string): Book {
  let kept: Later | undefined;
  const later = (): Later => {
    kept ??= readCompiled(name) as Later;
    return kept;
  };
  return {
    ...first,
    get diagnosis() {
      return later().diagnosis;
    },
    get review() {
      return later().review;
    },
  } as Book;
}

/** The book that was compiled beside the program, or, for another folder of rules, one read and checked now. */
export async function openBook(rulesFolder: string | undefined): Promise<Book> {
  if (rulesFolder === undefined) {
    const { later, ...first } = readCompiled('rulebook.json') as CompiledBook;
    return withLater(first, later);
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
