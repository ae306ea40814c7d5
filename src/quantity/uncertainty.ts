/** A value and its ±, which everywhere in the house means about 95 % coverage (k = 2). */
export interface Measured {
  value: number;
  plusMinus: number;
}

export interface Propagated extends Measured {
  /** Share of the variance that each input brings, in the order of the inputs; 0 to 1, adding up to 1. */
  shares: number[];
}

// Small enough to follow the curve at the point, large enough not to drown in rounding.
const stepOfPlusMinus = 0.01;
const smallestRelativeStep = 1e-7;

type Scalar = (x: number[]) => number;

function valueOr(f: Scalar, x: number[]): number | undefined {
  try {
    const y = f(x);
    return Number.isFinite(y) ? y : undefined;
  } catch {
    return undefined; // outside the range of the formula: the other side serves
  }
}

function slopeAt(f: Scalar, x: number[], i: number, middle: number, step: number): number {
  const at = x[i] ?? Number.NaN;
  const shifted = (to: number) => valueOr(f, x.with(i, to));
  const [above, below] = [shifted(at + step), shifted(at - step)];
  // The steps as the machine holds them: at + step - at is not quite step.
  const [up, down] = [at + step - at, at - (at - step)];
  if (above !== undefined && below !== undefined) return (above - below) / (up + down);
  if (above !== undefined) return (above - middle) / up;
  if (below !== undefined) return (middle - below) / down;
  return Number.NaN;
}

/**
 * The ± of a computed value from the ± of what it was computed from: linearised, root sum of squares,
 * inputs taken as independent. At the end of a formula's range the slope is taken from the side that
 * works. If neither side works the ± is NaN ('not known'), never a small number.
 * @param f       the calculation; whatever it throws at the values themselves is passed on
 * @param inputs  values with ±, all with the same coverage; a ± of 0 means taken as exact
 * @source JCGM 100:2008 (GUM) 5.1.2, law of propagation of uncertainty (from memory)
 * @example propagate(([a = 0, b = 0]) => a * b, [{ value: 3, plusMinus: 0.1 }, { value: 4, plusMinus: 0 }])
 *          // { value: 12, plusMinus: 0.4, shares: [1, 0] }
 */
export function propagate(f: Scalar, inputs: readonly Measured[]): Propagated {
  const x = inputs.map((input) => input.value);
  const value = f([...x]);
  const parts = inputs.map((input, i) => {
    const plusMinus = Math.abs(input.plusMinus);
    if (plusMinus === 0) return 0;
    const step = Math.max(plusMinus * stepOfPlusMinus, Math.abs(input.value) * smallestRelativeStep);
    return slopeAt(f, x, i, value, step) * plusMinus;
  });
  const plusMinus = Math.hypot(...parts);
  const shares = parts.map((part) => (plusMinus > 0 ? (part / plusMinus) ** 2 : 0));
  return { value, plusMinus, shares };
}

// Two-sided 95 % points of Student's t for 1 to 30 degrees of freedom: any table of statistics.
const student95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131,
  2.12, 2.11, 2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
];

export function studentFactor95(degreesOfFreedom: number): number {
  return student95[degreesOfFreedom - 1] ?? 1.96 + 2.4 / degreesOfFreedom;
}

// What is known of the instrument beforehand counts as this many further degrees of freedom (GUM G.4.2:
// a figure trusted to about a half of itself). Without it two readings 0.1 mL apart would be ± 0.64 mL.
const priorDegreesOfFreedom = 2;

/**
 * The mean of repeated readings and its ±. Two parts, root sum of squares:
 * - what the instrument can be wrong by (`reads`), which repeating does not average away;
 * - the scatter: Student factor (95 %) times the standard error of the mean. When `reads` is given the
 *   factor is taken for n + 1 degrees of freedom, not n - 1; with no `reads` (0), for n - 1.
 * One reading alone is ± `reads`. Two readings d apart are about ± 1.6 d.
 * @param values  the readings, at least one
 * @param reads   ± limit of one reading with this instrument, same unit; 0 when not known
 * @throws RangeError  when there is no reading, or one that is not a number
 * @source JCGM 100:2008 (GUM) 4.2, G.3 and G.4.2 (from memory); the prior weight is our own choice
 * @example ofReplicates([2.5, 2.6, 2.55], 0.05) // value 2.55, plusMinus about 0.094
 */
export function ofReplicates(values: readonly number[], reads: number): Measured {
  const n = values.length;
  if (n === 0 || !values.every(Number.isFinite)) throw new RangeError('A mean needs at least one reading.');
  const mean = values.reduce((sum, v) => sum + v, 0) / n;
  const instrument = Math.abs(reads);
  if (n === 1) return { value: mean, plusMinus: instrument };
  const spread = Math.sqrt(values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (n - 1));
  const freedom = n - 1 + (instrument > 0 ? priorDegreesOfFreedom : 0);
  const scatter = (studentFactor95(freedom) * spread) / Math.sqrt(n);
  return { value: mean, plusMinus: Math.hypot(instrument, scatter) };
}
