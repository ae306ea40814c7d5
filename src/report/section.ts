import type { UnitId } from '../quantity/units.ts';

/** A number as it was recorded; the ± is in the same unit. */
export interface Measured {
  value: number;
  unit: UnitId;
  plusMinus: number;
}

/** One fact of a report: a row of a table in every form of it. */
export interface Entry {
  /** The heading within a section, such as a stage. */
  group?: string;
  item: string;
  /** In words, a number with its unit and ±. */
  value: string;
  measured?: Measured;
  /** What it is judged by. */
  against?: string;
  verdict?: string;
  says?: string;
  /** Ids of sources. */
  sources?: readonly string[];
  /** UTC, ISO 8601. */
  at?: string;
  record?: number;
}

export type Field = 'item' | 'value' | 'against' | 'verdict' | 'says' | 'sources' | 'at' | 'record';

export interface Column {
  field: Field;
  head: string;
}

export interface Section {
  id: string;
  title: string;
  /** What the table shows, for those who hear it and do not see it. */
  caption: string;
  lead?: string;
  columns: readonly Column[];
  entries: Entry[];
  /** Said in place of an empty table. */
  none: string;
}

export const whenColumns: readonly Column[] = [
  { field: 'at', head: 'Time (UTC)' },
  { field: 'record', head: 'Record' },
];
