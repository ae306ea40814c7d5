import { expect } from 'vitest';
import { calculate } from '../../src/chemistry/calculate.ts';
import type { Calculation } from '../../src/chemistry/calculation.ts';
import { calculations } from '../../src/chemistry/catalogue.ts';
import { OutOfRangeError } from '../../src/chemistry/out-of-range-error.ts';

export function calculationNamed(name: string): Calculation {
  const found = calculations[name];
  if (!found) throw new Error(`no calculation ${name}`);
  return found;
}

/** Values of a calculation by output name, defaults filled in. */
export function run(name: string, inputs: Record<string, number | string>): Record<string, number> {
  const given = Object.fromEntries(Object.entries(inputs).map(([key, value]) => [key, { value }]));
  const { result } = calculate(calculationNamed(name), given);
  return Object.fromEntries(Object.entries(result).map(([key, { value }]) => [key, value]));
}

/** One output, which has to be there. */
export function runFor(name: string, output: string, inputs: Record<string, number | string>): number {
  const value = run(name, inputs)[output];
  if (value === undefined) throw new Error(`${name} gave no ${output}`);
  return value;
}

/** Both ends of a range are allowed and one step beyond either is refused. */
export function expectRange(call: (value: number) => unknown, low: number, high: number, step: number): void {
  expect(() => call(low)).not.toThrow();
  expect(() => call(high)).not.toThrow();
  expect(() => call(low - step)).toThrow(OutOfRangeError);
  expect(() => call(high + step)).toThrow(OutOfRangeError);
  // A function refuses it as out of range, a whole calculation already as a bad input.
  expect(() => call(Number.NaN)).toThrow(/is not a number|needs a number/);
}

/** Within an absolute tolerance, as the worked examples state theirs. */
export function expectWithin(value: number, wanted: number, tolerance: number): void {
  expect(Math.abs(value - wanted), `${value} is not within ${tolerance} of ${wanted}`).toBeLessThanOrEqual(
    tolerance,
  );
}
