import { bench, describe } from 'vitest';
import { calculate } from '../../src/chemistry/calculate.ts';
import { calculations } from '../../src/chemistry/catalogue.ts';
import { completeInputs } from '../../src/chemistry/complete-inputs.ts';
import { SAMPLES } from '../chemistry/samples.ts';
import { QUICK } from './quick.ts';

const runs = Object.values(calculations).map((calculation) => {
  const sample = SAMPLES[calculation.name];
  if (!sample) throw new Error(`samples.ts has no sample for ${calculation.name}`);
  const given = Object.fromEntries(Object.entries(sample).map(([key, value]) => [key, { value }]));
  return { calculation, given, complete: completeInputs(calculation, given) };
});

// The ± costs about two bare runs for each uncertain input, and the checking of what was given.
for (const { calculation, given, complete } of runs) {
  describe(`${calculation.name}, what its ± costs`, () => {
    bench('bare run', () => void calculation.run(complete), QUICK);
    bench('with its ±', () => void calculate(calculation, given), QUICK);
  });
}

// The floor under all of them: what it costs to measure nothing.
describe('bare runs beside an empty function', () => {
  bench('empty function', () => {}, QUICK);
  for (const { calculation, complete } of runs) {
    bench(calculation.name, () => void calculation.run(complete), QUICK);
  }
});
