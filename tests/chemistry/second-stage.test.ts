import { describe, expect, test } from 'vitest';
import { unreactedFraction } from '../../src/chemistry/second-stage.ts';
import { expectRange, expectWithin, run } from './run.ts';

describe('a second dose is for the part that dropped out', () => {
  // Common practice, no source; worked out by hand.
  test('0.30 mL of 3.0 mL is 10 % unreacted (tolerance 0.5)', () => {
    expectWithin(100 * unreactedFraction(0.3, 3), 10, 0.5);
  });

  test('150 L of it takes 3.30 L of methanol and 105 g of KOH', () => {
    const result = run('second-stage', { fuel: 150, dropOut: 0.3 });
    expectWithin(result.methanol as number, 3.3, 0.05);
    expectWithin(result.catalyst as number, 105, 1);
    expectWithin(result.methanolFloor as number, 4.5, 0.01);
  });

  test('weaker alkali takes more grams, NaOH fewer', () => {
    const weak = run('second-stage', { fuel: 150, dropOut: 0.3, purity: 90 });
    expectWithin(weak.catalyst as number, 105 / 0.9, 0.1);
    expectWithin(
      run('second-stage', { fuel: 150, dropOut: 0.3, catalyst: 'NaOH' }).catalyst as number,
      75,
      0.1,
    );
  });

  test('more than a third of the sample is a new batch, not a second stage', () => {
    expectRange((mL) => unreactedFraction(mL, 3), 0, 1, 0.01);
    expectRange((mL) => unreactedFraction(0.1, mL), 0.5, 100, 0.3);
    expectRange((fuel) => run('second-stage', { fuel, dropOut: 0.1 }), 0.01, 100_000, 0.005);
    expectRange((purity) => run('second-stage', { fuel: 1, dropOut: 0.1, purity }), 50, 100, 1);
    expect(() => run('second-stage', { fuel: 150, dropOut: 1.1 })).toThrow(/drop-out is 1.1 mL/);
  });
});
