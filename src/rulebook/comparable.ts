import type { Book } from './book.ts';
import type { Plain } from './condition.ts';
import { type FactTable, plainOf } from './evaluation.ts';
import { limitNumbers, over } from './limit-facts.ts';
import type { KnownFacts } from './three-valued.ts';

/** What conditions may compare: bare values, whether each question was answered in this visit, and how. */
export function comparable(book: Book, facts: FactTable, figures: FactTable['values']): KnownFacts {
  const known: Record<string, Plain | undefined> = over(limitNumbers(book), {});
  for (const [id, value] of Object.entries({ ...facts.values, ...figures })) known[id] = plainOf(value);
  for (const id of Object.keys(book.questions)) known[`asked.${id}`] = facts.status[id] !== undefined;
  for (const [id, status] of Object.entries(facts.status)) known[`status.${id}`] = status;
  return known;
}
