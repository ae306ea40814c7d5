import type { Diagnosis } from './diagnosis-schema.ts';
import type { ReviewCheck } from './review-schema.ts';
import type {
  Advice,
  Computation,
  Hazard,
  Leave,
  Limit,
  Question,
  Source,
  StageText,
  Word,
} from './rule-schema.ts';

export interface Stage extends Omit<StageText, 'questions' | 'compute'> {
  /** Question ids in the order they are asked; hazards' questions first unless the stage places them itself. */
  asks: string[];
}

/** All rule files, checked and joined; plain data, so that it can be kept as JSON. */
export interface Book {
  stages: Stage[];
  questions: Record<string, Question>;
  computations: Computation[];
  hazards: Hazard[];
  limits: Record<string, Limit>;
  sources: Record<string, Source>;
  words: Word[];
  /** Causes of trouble and the checks that find them; a rule pack may have none. */
  diagnosis?: Diagnosis;
  /** What a mentor looks for in a log, in the order of the files. */
  review: ReviewCheck[];
  /** SHA-256 of the rule texts, filled in by whoever read the files. */
  hash: string;
}

export function stageOf(book: Book, id: string): Stage {
  const found = book.stages.find((stage) => stage.stage === id);
  if (!found) throw new Error(`the rules have no stage "${id}"`);
  return found;
}

/** The stages that come after one in a batch that goes straight through. */
export function stagesAfter(book: Book, id: string): string[] {
  return book.stages.slice(book.stages.findIndex(({ stage }) => stage === id) + 1).map(({ stage }) => stage);
}

export function questionOf(book: Book, id: string): Question {
  const found = book.questions[id];
  if (!found) throw new Error(`the rules have no question "${id}"`);
  return found;
}

export function hazardsAt(book: Book, stage: string): Hazard[] {
  return book.hazards.filter((hazard) => hazard.stages === 'any' || hazard.stages.includes(stage));
}

export function hazardOf(book: Book, id: string): Hazard {
  const found = book.hazards.find((hazard) => hazard.id === id);
  if (!found) throw new Error(`the rules have no stop "${id}"`);
  return found;
}

export function adviceOf(book: Book, stage: string, id: string): Advice | undefined {
  return stageOf(book, stage).advice.find((advice) => advice.id === id);
}

export function leavesFrom(book: Book, stage: string): Leave[] {
  return stageOf(book, stage).leave;
}

/** The facts that a computation sets, with their units where the rule file names them. */
export function factsSetBy(computation: Computation): string[] {
  return 'formula' in computation ? [computation.fact] : Object.keys(computation.gives);
}

/** The facts that a computation needs. */
export function factsUsedBy(computation: Computation): string[] {
  return Object.values(computation.with).flatMap((operand) =>
    typeof operand === 'string'
      ? [operand]
      : typeof operand === 'object' && 'fact' in operand
        ? [operand.fact]
        : [],
  );
}
