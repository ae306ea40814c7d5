import { type BatchRow, type Measure, measured, measures } from './batch-row.ts';
import { type IndividualsChart, individualsChart, type Side } from './control-chart.ts';

/** Fewer points draw no limits worth the name: common practice, no source. */
export const fewestForLimits = 5;
/** Below this many the limits are still rough: common practice, no source. */
export const enoughForLimits = 20;

export interface TrendPoint {
  batch: string;
  opened: string;
  value: number;
}

export interface Trend {
  id: string;
  title: string;
  unit: string;
  places: number;
  count: number;
  /** The newest reading; nothing when there is none. */
  last?: number;
  /** Nothing where there are too few batches. A lower limit below nothing at all is left out. */
  limits?: { centre: number; lower?: number; upper: number; meanRange: number; rangeUpper: number };
  outside: (TrendPoint & { side: Side })[];
  jumps: (TrendPoint & { from: number })[];
  runs: { first: TrendPoint; last: TrendPoint; count: number; side: Side }[];
}

/** One quantity over all batches: numbers only, so that thousands of batches stay small. */
class Column {
  readonly batches: number[] = [];
  readonly values: number[] = [];

  add(batch: number, value: number): void {
    this.batches.push(batch);
    this.values.push(value);
  }
}

/** Hours are charted in tenths: how many seconds lie between two answers says nothing about a batch. */
const inTenths = (hours: number) => Math.round(hours * 10) / 10;

/** How a batch is called; trends keep no names. */
export type NameOf = (batch: number) => string;

export class Trends {
  private readonly opened: number[] = [];
  private readonly names: number[] = [];
  private readonly byMeasure = new Map<Measure, Column>(measures.map((measure) => [measure, new Column()]));
  private readonly byStage: Map<string, Column>;

  /** @param stages  ids of the stages whose times are drawn, in their order */
  constructor(stages: readonly string[]) {
    this.byStage = new Map(stages.map((stage) => [stage, new Column()]));
  }

  /** Takes in one batch; `name` is a number by which it is called later. */
  add(row: BatchRow, name: number): void {
    const opened = Date.parse(row.opened);
    // Looking for a fault alone is no batch, and one without a date has no place in a row of dates.
    if (row.ended === 'trouble-only' || Number.isNaN(opened)) return;
    const batch = this.opened.push(opened) - 1;
    this.names.push(name);
    for (const [measure, column] of this.byMeasure) {
      const value = row.values[measure];
      if (value !== undefined) column.add(batch, value);
    }
    for (const { stage, hours } of row.stages) this.byStage.get(stage)?.add(batch, inTenths(hours));
  }

  /** Every quantity that was measured at all, batches by the date on which they were opened. */
  drawn(nameOf: NameOf): Trend[] {
    const drawn = (id: string, title: string, unit: string, places: number, column: Column) =>
      this.draw({ id, title, unit, places }, column, nameOf);
    return [
      ...[...this.byMeasure].map(([id, column]) => {
        const { title, unit, places } = measured[id];
        return drawn(id, title, unit, places, column);
      }),
      ...[...this.byStage].map(([stage, column]) => drawn(`time-in-${stage}`, stage, 'h', 1, column)),
    ].filter(({ count }) => count > 0);
  }

  private draw(of: Pick<Trend, 'id' | 'title' | 'unit' | 'places'>, column: Column, nameOf: NameOf): Trend {
    const order = [...column.values.keys()].sort(
      (one, other) => this.openedAt(column, one) - this.openedAt(column, other),
    );
    const values = order.map((place) => column.values[place] ?? 0);
    const pointAt = (index: number): TrendPoint => {
      const place = order[index] ?? 0;
      const name = nameOf(this.names[column.batches[place] ?? 0] ?? 0);
      const opened = new Date(this.openedAt(column, place)).toISOString();
      return { batch: name, opened, value: values[index] ?? 0 };
    };
    const last = values.at(-1);
    const begun = { ...of, count: values.length, ...(last === undefined ? {} : { last }) };
    const chart = values.length >= fewestForLimits ? individualsChart(values) : undefined;
    if (!chart) return { ...begun, outside: [], jumps: [], runs: [] };
    return { ...begun, ...marks(chart, values, pointAt) };
  }

  private openedAt(column: Column, place: number): number {
    return this.opened[column.batches[place] ?? 0] ?? 0;
  }
}

function marks(
  chart: IndividualsChart,
  values: readonly number[],
  pointAt: (index: number) => TrendPoint,
): Pick<Trend, 'limits' | 'outside' | 'jumps' | 'runs'> {
  const { centre, lower, upper, meanRange, rangeUpper } = chart;
  return {
    // None of these quantities can be less than nothing, so a limit there could never be passed.
    limits: { centre, ...(lower > 0 ? { lower } : {}), upper, meanRange, rangeUpper },
    outside: chart.outside.map(({ index, side }) => ({ ...pointAt(index), side })),
    jumps: chart.jumps.map((index) => ({ ...pointAt(index), from: values[index - 1] ?? 0 })),
    runs: chart.runs.map(({ first, last, side }) => {
      return { first: pointAt(first), last: pointAt(last), count: last - first + 1, side };
    }),
  };
}
