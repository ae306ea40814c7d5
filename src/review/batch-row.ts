/** What trends are drawn of, with the unit that the figure or answer must have to be counted. */
export const measured = {
  titration: { title: 'titration', unit: 'mL', places: 2 },
  dropout: { title: 'conversion drop-out', unit: 'mL', places: 2 },
  rawSoap: { title: 'soap, raw fuel', unit: 'ppm', places: 0 },
  soap: { title: 'soap, washed', unit: 'ppm', places: 0 },
  yield: { title: 'yield', unit: '%', places: 1 },
} as const;
export type Measure = keyof typeof measured;
export const measures = Object.keys(measured) as Measure[];

/** One batch of a folder, as far as it can be told without folding its talk. */
export interface BatchRow {
  batch: string;
  opened: string;
  last: string;
  records: number;
  maker?: string;
  experience?: string;
  /** The last decision about the oil. */
  decision?: string;
  ended: 'finished' | 'rejected' | 'abandoned' | 'unfinished' | 'trouble-only';
  /** Where the talk is at the end of the log. */
  stage: string;
  values: { readonly [M in Measure]?: number };
  /** Hours by the clock in each stage that was left, all visits together: nights and pauses count. */
  stages: { stage: string; hours: number; visits: number }[];
  /** Every stop that held, once each, and those that still hold. */
  stops: string[];
  held: string[];
  waitsCutShort: number;
  notSure: number;
  changes: number;
  troubles: number;
  /** What the last review that was signed came to. */
  verdict?: string;
}
