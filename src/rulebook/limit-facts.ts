import type { Book } from './book.ts';
import type { Figure } from './evaluation.ts';

/** Limits are facts too, exact ones, named `limit.<id>`. */
export function limitFacts(book: Book): Record<string, Figure> {
  const entries = Object.values(book.limits).map(
    (limit) => [`limit.${limit.id}`, { value: limit.value, unit: limit.unit, plusMinus: 0 }] as const,
  );
  return Object.fromEntries(entries);
}
