import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  acidValue,
  freeFattyAcidByAocs,
  freeFattyAcidPercent,
  molarStrength,
} from '../../src/chemistry/titration.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('a titration gives acid value and free fatty acid', () => {
  // EN 14104 form (from memory) and AOCS Ca 5a-40 (method text looked up), worked out by hand; tolerance 0.5
  // %.
  test.each([
    ['NaOH', 1, 1.5247, 0.766],
    ['NaOH', 2, 3.0494, 1.532],
    ['NaOH', 3, 4.574, 2.299],
    ['NaOH', 5, 7.6236, 3.831],
    ['KOH', 1, 1.087, 0.546],
    ['KOH', 2, 2.1739, 1.092],
    ['KOH', 3, 3.261, 1.639],
    ['KOH', 5, 5.4348, 2.731],
  ])('%s solution, %s mL on 1 mL of oil', (reagent, titrant, value, ffa) => {
    const result = run('titration', { reagent, titrant });
    expectWithin(result.acidValue as number, value, 0.005 * value);
    expectWithin(result.ffa as number, ffa, 0.005 * ffa);
  });

  test('2.50 mL of 0.1 mol/L on 5.00 g is an acid value of 2.805 by EN 14104 (from memory)', () => {
    expectWithin(acidValue(2.5, 0, 0.1, 5), 2.805, 0.005);
  });

  test('and 1.410 % by AOCS Ca 5a-40 (looked up), 1.4095 % by its note (from memory)', () => {
    expectWithin(freeFattyAcidByAocs(2.5, 0.1, 5), 1.41, 0.005);
    expectWithin(freeFattyAcidPercent(2.805), 1.4095, 0.005);
  });

  test('1 g/L is 0.0250 mol/L of NaOH and 0.0178 of KOH (IUPAC atomic masses, from memory)', () => {
    expectWithin(molarStrength(1, 'NaOH'), 0.025002, 1e-6);
    expectWithin(molarStrength(1, 'KOH'), 0.0178236, 1e-6);
  });

  test('the blank is taken off', () => {
    const plain = runFor('titration', 'ffa', { reagent: 'KOH', titrant: 2.8 });
    const blanked = runFor('titration', 'ffa', { reagent: 'KOH', titrant: 3, blank: 0.2 });
    expect(blanked).toBeCloseTo(plain, 12);
  });

  test('a solution of 90 % strength brings acid value and free acid down to 90 %', () => {
    const full = run('titration', { reagent: 'KOH', titrant: 3 });
    const weak = run('titration', { reagent: 'KOH', titrant: 3, strength: 0.9 });
    expect(weak.acidValue).toBeCloseTo(0.9 * (full.acidValue as number), 10);
    expect(weak.ffa).toBeCloseTo(0.9 * (full.ffa as number), 10);
  });
});

describe('a titration that cannot be is refused', () => {
  test('a blank above the titrant', () => {
    expect(() => acidValue(1, 1, 0.0178, 1)).not.toThrow();
    expect(() => acidValue(1, 1.01, 0.0178, 1)).toThrow(/blank is 1.01 mL/);
  });

  test('each quantity has two ends', () => {
    expectRange((mL) => acidValue(mL, 0, 0.0178, 1), 0, 100, 0.1);
    expectRange((g) => acidValue(0.1, 0, 0.0178, g), 0.05, 200, 0.01);
    expectRange((mL) => freeFattyAcidByAocs(mL, 0.1, 5), 0, 100, 0.1);
    expectRange((g) => freeFattyAcidByAocs(1, 0.1, g), 0.05, 200, 0.01);
    expectRange(freeFattyAcidPercent, 0, 199, 0.1);
    expectRange((gPerL) => molarStrength(gPerL, 'KOH'), 0.05, 60, 0.01);
    expectRange((d) => run('titration', { reagent: 'KOH', titrant: 1, oilDensity: d }), 0.85, 0.97, 0.01);
  });

  test('more acid than pure oleic acid', () => {
    expect(() => acidValue(100, 0, 0.1, 1)).toThrow(/acid value/);
  });
});

test('more titrant never means less acid', () => {
  const amounts = fc.double({ min: 0, max: 20, noNaN: true });
  fc.assert(
    fc.property(amounts, amounts, (a, b) => {
      const [less, more] = [Math.min(a, b), Math.max(a, b)];
      const ffa = (titrant: number): number => runFor('titration', 'ffa', { reagent: 'NaOH', titrant });
      return ffa(less) <= ffa(more);
    }),
  );
});
