import type { Book } from './book.ts';
import type { Figure } from './evaluation.ts';

type Limits = Readonly<Record<string, Figure>>;

const figures = new WeakMap<Book, Limits>();
const numbers = new WeakMap<Book, Readonly<Record<string, number>>>();

function keptIn<T>(store: WeakMap<Book, T>, book: Book, make: () => T): T {
  const kept = store.get(book);
  if (kept !== undefined) return kept;
  const made = make();
  store.set(book, made);
  return made;
}

/** Limits are facts too, exact ones, named `limit.<id>`. There are hundreds, so they are made once for a book. */
export function limitFacts(book: Book): Limits {
  return keptIn(figures, book, () =>
    Object.fromEntries(
      Object.values(book.limits).map(({ id, value, unit }) => [`limit.${id}`, { value, unit, plusMinus: 0 }]),
    ),
  );
}

/** The same as bare numbers, for comparisons. */
export function limitNumbers(book: Book): Readonly<Record<string, number>> {
  return keptIn(numbers, book, () =>
    Object.fromEntries(Object.values(book.limits).map(({ id, value }) => [`limit.${id}`, value])),
  );
}

/** A record that falls back on another one for what it does not hold itself; copying hundreds of limits is slow. */
export function over<T extends object>(base: Readonly<Record<string, unknown>>, own: T): T {
  return Object.assign(Object.create(base), own);
}
