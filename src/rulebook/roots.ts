import { type Book, factsSetBy, factsUsedBy, stageOf } from './book.ts';
import { type Condition, factsOf } from './condition.ts';
import { adviceKey } from './rule-keys.ts';

const prefixes = /^(status|minutes|asked)\./;
const perBook = new WeakMap<Book, Map<string, string[]>>();

function findRoots(book: Book, fact: string, seen: ReadonlySet<string>): string[] {
  if (fact in book.questions) return [fact];
  if (seen.has(fact)) return [];
  const computation = book.computations.find((one) => factsSetBy(one).includes(fact));
  if (!computation) return [];
  const deeper = new Set([...seen, fact]);
  const used = factsUsedBy(computation).map((one) => one.replace(prefixes, ''));
  return [...new Set(used.flatMap((one) => findRoots(book, one, deeper)))];
}

/** The questions that a fact rests on: itself, or the inputs of its computation, all the way down. */
export function rootsOf(book: Book, fact: string): string[] {
  const bare = fact.replace(prefixes, '');
  const known = perBook.get(book) ?? new Map<string, string[]>();
  perBook.set(book, known);
  const found = known.get(bare) ?? findRoots(book, bare, new Set());
  known.set(bare, found);
  return found;
}

export function rootsOfCondition(book: Book, condition: Condition): string[] {
  return [...new Set(factsOf(condition).flatMap((fact) => rootsOf(book, fact)))];
}

/** The keys of a stage's advice that looks, directly or through figures, at one of these questions. */
export function adviceRestingOn(book: Book, stage: string, questions: readonly string[]): string[] {
  return stageOf(book, stage)
    .advice.filter((advice) => rootsOfCondition(book, advice.when).some((root) => questions.includes(root)))
    .map((advice) => adviceKey(advice.id));
}
