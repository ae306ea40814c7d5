import type { UnitId } from '../quantity/units.ts';
import type { Operator, Plain } from './condition.ts';

/** How a number is known: its value in the fact's unit and its ± in the same unit. */
export interface Figure {
  value: number;
  unit: UnitId;
  plusMinus: number;
  /** The input that contributes most to the ±, where that is known. */
  biggest?: string;
}

/** What rules may look at: every answered fact, and for each question how it was answered. */
export interface FactTable {
  values: Readonly<Record<string, Plain | Figure | undefined>>;
  status: Readonly<Record<string, AnswerStatus | undefined>>;
  /** When the batch was opened and each question answered (UTC); whoever has a clock makes `minutes.` facts of it. */
  since?: string;
  answeredAt?: Readonly<Record<string, string>>;
}

export type AnswerStatus = 'known' | 'not-sure' | 'skipped';

/** One comparison of a rule with the answer that met it; `met` is absent where it was not needed. */
export interface Trace {
  fact: string;
  operator: Operator;
  value: Plain | { fact: string };
  was?: Plain;
  against?: Plain;
  met?: boolean;
}

/** What came out of one run of the rules of a stage; keys are made by rule-keys.ts. */
export interface Evaluation {
  /** Figures that are new or have changed since the last run, and those that are no longer known. */
  figures: Record<string, Figure>;
  lost: string[];
  refused: { fact: string; says: string }[];
  /** True conditions of advice, gates of questions, ways out and clearings. */
  true: string[];
  /** Ways out, and stops of stages, that are not decided yet, each with the facts it waits for. */
  undecided: Record<string, string[]>;
  /** Open questions of purpose `decide` that can still change what a rule says; the others are not asked. */
  deciding: string[];
  /** Stops whose safe condition is not met, worst first. "Not sure" counts as not met. */
  unsafe: string[];
  traces: Record<string, Trace[]>;
}

/** What an evaluation is run on. */
export interface Occasion {
  stage: string;
  facts: FactTable;
  /** Figures known from the last run. */
  figures: Readonly<Record<string, Figure>>;
  /** Stops that hold the batch now; their clearing conditions are judged too. */
  held: readonly string[];
  /** Keys whose traces were recorded before and need not be written again. */
  explained: readonly string[];
}

export function isFigure(value: Plain | Figure | undefined): value is Figure {
  return typeof value === 'object' && !Array.isArray(value);
}

/** The bare value that conditions compare. */
export function plainOf(value: Plain | Figure | undefined): Plain | undefined {
  return isFigure(value) ? value.value : value;
}

/** The figures after an evaluation: those before it with the new and changed ones, without the lost ones. */
export function figuresAfter(
  before: Readonly<Record<string, Figure>>,
  { figures, lost }: Pick<Evaluation, 'figures' | 'lost'>,
): Record<string, Figure> {
  const after = { ...before, ...figures };
  for (const fact of lost) delete after[fact];
  return after;
}
