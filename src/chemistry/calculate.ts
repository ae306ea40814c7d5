import type { Calculation, InputSpec, InputValues } from './calculation.ts';
import { completeInputs, type GivenInputs } from './complete-inputs.ts';
import { OutOfRangeError } from './out-of-range-error.ts';

export interface Result {
  value: number;
  unit: string;
  plusMinus: number;
  /** Input that contributes most to the ±; absent when the ± is zero. */
  biggest?: string;
}

export interface InputUsed {
  value: number | string;
  unit: string;
  plusMinus: number;
  from: 'given' | 'default';
}

export interface Calculated {
  result: Record<string, Result>;
  inputsUsed: Record<string, InputUsed>;
}

type Outputs = Record<string, number>;

/** The step for the slope does not depend on the ±, so that a tighter input can never widen a result. */
const RELATIVE_STEP = 1e-4;
const SMALLEST_SCALE = 0.01;

function plusMinusOf(spec: InputSpec, value: number | string, given: number | undefined): number {
  if (typeof value !== 'number') return 0;
  return given ?? Math.max(spec.reads ?? 0, (Math.abs(value) * (spec.readsPercent ?? 0)) / 100);
}

function runUnlessOutOfRange(calculation: Calculation, values: InputValues): Outputs | undefined {
  try {
    return calculation.run(values);
  } catch (error) {
    if (error instanceof OutOfRangeError) return undefined;
    throw error;
  }
}

/** A difference in the last digits of a double is rounding, not an effect. */
function difference(high: number, low: number): number {
  const change = high - low;
  return Math.abs(change) < 1e-12 * Math.abs(high) ? 0 : change;
}

/**
 * Change of every output for a unit change of one input: central difference, one-sided at the end of a range.
 */
function slopes(calculation: Calculation, values: InputValues, key: string, center: Outputs): Outputs {
  const at = values[key] as number;
  let step = Math.max(Math.abs(at), SMALLEST_SCALE) * RELATIVE_STEP;
  for (let attempt = 0; attempt < 12; attempt += 1, step /= 4) {
    const above = runUnlessOutOfRange(calculation, { ...values, [key]: at + step });
    const below = runUnlessOutOfRange(calculation, { ...values, [key]: at - step });
    if (!above && !below) continue;
    const width = above && below ? 2 * step : step;
    const [high, low] = [above ?? center, below ?? center];
    return Object.fromEntries(
      Object.keys(center).map((name) => [name, difference(high[name] ?? 0, low[name] ?? 0) / width]),
    );
  }
  // The range is a single point: the input cannot move, so it cannot move a result.
  return Object.fromEntries(Object.keys(center).map((name) => [name, 0]));
}

function spread(contributions: [string, number][]): { plusMinus: number; biggest?: string } {
  const plusMinus = Math.hypot(...contributions.map(([, part]) => part));
  if (plusMinus === 0) return { plusMinus };
  const [biggest] = contributions.reduce((most, next) => (next[1] > most[1] ? next : most));
  return { plusMinus, biggest };
}

/**
 * Runs a calculation with the uncertainty of its inputs: linear propagation, root of the sum of squares.
 * An input without its own ± takes that of a usual instrument.
 */
export function calculate(calculation: Calculation, given: GivenInputs): Calculated {
  const values = completeInputs(calculation, given);
  const center = calculation.run(values);
  const inputsUsed: Record<string, InputUsed> = {};
  const contributions: Record<string, [string, number][]> = {};
  for (const [key, spec] of Object.entries(calculation.inputs)) {
    const value = values[key];
    if (value === undefined) continue;
    const plusMinus = plusMinusOf(spec, value, given[key]?.plusMinus);
    inputsUsed[key] = {
      value,
      unit: spec.unit,
      plusMinus,
      from: Object.hasOwn(given, key) ? 'given' : 'default',
    };
    if (plusMinus === 0) continue;
    for (const [name, slope] of Object.entries(slopes(calculation, values, key, center))) {
      contributions[name] = [...(contributions[name] ?? []), [key, Math.abs(slope) * plusMinus]];
    }
  }
  const result = Object.fromEntries(
    Object.entries(calculation.outputs).flatMap(([name, spec]): [string, Result][] => {
      const value = center[name];
      if (value === undefined) return [];
      return [[name, { value, unit: spec.unit, ...spread(contributions[name] ?? []) }]];
    }),
  );
  return { result, inputsUsed };
}
