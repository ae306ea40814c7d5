import type { Book } from './book.ts';
import type { Diagnosis } from './diagnosis-schema.ts';
import type { ReviewFactName } from './review-schema.ts';
import type { Mistake } from './rule-file-error.ts';
import type { Decisions } from './rule-schema.ts';
import type { RuleText } from './rule-text.ts';

/** Where a rule, question or figure is written, so that a mistake found later can name it. */
export interface Written {
  file: RuleText;
  path: readonly PropertyKey[];
}

export interface Loading {
  book: Book;
  decisions: Decisions[];
  /** The parts of rules/diagnosis as they are read. */
  diagnosis: Partial<Diagnosis>;
  /** Names of the facts that only a review has. */
  reviewFacts: ReviewFactName[];
  order: string[];
  written: Map<string, Written>;
  mistakes: Mistake[];
}
