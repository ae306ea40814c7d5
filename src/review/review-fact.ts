import type { UnitId } from '../quantity/units.ts';
import type { Book } from '../rulebook/book.ts';
import type { Plain } from '../rulebook/condition.ts';
import type { Story } from './story.ts';

/** Something that only a whole log can tell; nothing where the log does not say. */
export interface ReviewFact {
  about: string;
  unit?: UnitId;
  of: (story: Story, book: Book) => Plain | undefined;
}

/** By name, without the `review.` that rule files write before it. */
export type ReviewFacts = Record<string, ReviewFact>;
