/** Expected range of two readings in standard deviations: NIST/SEMATECH e-Handbook 6.3.2.2. */
const d2 = 1.128;
/** Upper limit of a moving range of two over the mean range: common table value, 1 + 3 · 0.8525 / 1.1284. */
const rangeFactor = 3.267;
/** Readings in a row on one side of the centre line: the handbook's Western Electric rules, 6.3.2. */
const runLength = 8;
/** Relative; two sums of equal readings differ by less. */
const roundingNoise = 1e-9;

export type Side = 'above' | 'below';

/** Chart of single readings in their order, and of the step from each to the next. */
export interface IndividualsChart {
  count: number;
  centre: number;
  lower: number;
  upper: number;
  meanRange: number;
  rangeUpper: number;
  /** Places of readings beyond a limit. */
  outside: { index: number; side: Side }[];
  /** Places of readings that differ from the one before by more than the upper range limit. */
  jumps: number[];
  /** Eight and more readings in a row on one side of the centre line, first and last place. */
  runs: { first: number; last: number; side: Side }[];
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Longest stretches on one side; a reading on the line itself ends a stretch. */
function runsIn(sides: readonly (Side | undefined)[]): IndividualsChart['runs'] {
  const runs: IndividualsChart['runs'] = [];
  let first = 0;
  for (let index = 1; index <= sides.length; index += 1) {
    const side = sides[first];
    if (index < sides.length && sides[index] === side) continue;
    if (side && index - first >= runLength) runs.push({ first, last: index - 1, side });
    first = index;
  }
  return runs;
}

/**
 * Individuals and moving-range chart: centre line the mean, limits 3 · mean moving range / 1.128 from it.
 * Nothing for fewer than two readings: there is no range to judge by.
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (chart) and 6.3.2 (eight in a row)
 */
export function individualsChart(values: readonly number[]): IndividualsChart | undefined {
  if (values.length < 2) return undefined;
  const ranges = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? value)));
  const centre = mean(values);
  const meanRange = mean(ranges);
  const reach = (3 * meanRange) / d2;
  const rangeUpper = rangeFactor * meanRange;
  const noise = roundingNoise * Math.max(Math.abs(centre), meanRange);
  const sideOf = (value: number, line: number): Side | undefined =>
    Math.abs(value - line) <= noise ? undefined : value > line ? 'above' : 'below';
  const beyond = (value: number): Side | undefined => {
    if (sideOf(value, centre + reach) === 'above') return 'above';
    return sideOf(value, centre - reach) === 'below' ? 'below' : undefined;
  };
  const outside = values.flatMap((value, index): { index: number; side: Side }[] => {
    const side = beyond(value);
    return side ? [{ index, side }] : [];
  });
  const jumps = ranges.flatMap((range, index) => (range > rangeUpper + noise ? [index + 1] : []));
  const runs = runsIn(values.map((value) => sideOf(value, centre)));
  const limits = { lower: centre - reach, upper: centre + reach };
  return { count: values.length, centre, ...limits, meanRange, rangeUpper, outside, jumps, runs };
}
