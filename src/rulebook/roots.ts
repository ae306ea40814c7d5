import { type Book, factsSetBy, factsUsedBy, stageOf } from './book.ts';
import { type Condition, factsOf } from './condition.ts';
import { adviceKey } from './rule-keys.ts';

/** The questions that a fact rests on: itself, or the inputs of its computation, all the way down. */
export function rootsOf(book: Book, fact: string, seen: ReadonlySet<string> = new Set()): string[] {
  const bare = fact.replace(/^(status|minutes|asked)\./, '');
  if (bare in book.questions) return [bare];
  if (seen.has(bare)) return [];
  const computation = book.computations.find((one) => factsSetBy(one).includes(bare));
  if (!computation) return [];
  const deeper = new Set([...seen, bare]);
  return [...new Set(factsUsedBy(computation).flatMap((used) => rootsOf(book, used, deeper)))];
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
