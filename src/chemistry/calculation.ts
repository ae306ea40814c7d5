export interface InputSpec {
  /** House unit of the value, or `text`. */
  unit: string;
  about: string;
  choices?: readonly string[];
  default?: number | string;
  /** May be left out although it has no default; `about` then says what is used. */
  optional?: true;
  /** Stands in for the named input: one of the two is given, never both. */
  insteadOf?: string;
  /** How well a usual instrument reads this, ± in `unit`. */
  reads?: number;
  /** The same as a share of the value, ± percent. The larger of the two counts. */
  readsPercent?: number;
}

export interface OutputSpec {
  unit: string;
  about: string;
  /** Significant digits that the source supports. */
  digits: number;
  /** Left out of the result where the source does not cover the case. */
  optional?: true;
}

export type InputValues = Record<string, number | string>;

export interface Calculation {
  name: string;
  about: string;
  inputs: Record<string, InputSpec>;
  outputs: Record<string, OutputSpec>;
  /** Source ids as in rules/sources.yaml. */
  sources: readonly string[];
  run(inputs: InputValues): Record<string, number>;
}
