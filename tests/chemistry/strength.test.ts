import { describe, expect, test } from 'vitest';
import { strengthByPhthalate } from '../../src/chemistry/strength.ts';
import { expectRange, expectWithin, run } from './run.ts';

describe('potassium hydrogen phthalate tells how strong a reference solution is', () => {
  // Worked out from 204.2 g/mol, mole for mole; tolerance is that of the last digit given.
  test('0.100 g against 27.5 mL is a KOH solution of 1.00 g/L', () => {
    expectWithin(strengthByPhthalate(0.1, 27.5, 'KOH'), 1.0, 0.005);
  });

  test('0.100 g against 30.5 mL is the same from flakes of 90 %', () => {
    expectWithin(strengthByPhthalate(0.1, 30.5, 'KOH'), 0.9, 0.005);
  });

  test('a NaOH solution of 1 g/L needs 19.6 mL, which is 27.5 / 1.4027', () => {
    expectWithin(strengthByPhthalate(0.1, 27.5 / 1.4027, 'NaOH'), 1.0, 0.005);
  });

  test('how far it is off is told in percent of what was meant', () => {
    const result = run('strength', { titrant: 30.5, reagent: 'KOH' });
    expectWithin(result.offNominal as number, -10, 0.2);
    expect(
      run('strength', { titrant: 30.5, reagent: 'KOH', nominal: result.strength as number }).offNominal,
    ).toBeCloseTo(0);
  });

  test('each quantity has two ends', () => {
    expectRange((g) => strengthByPhthalate(g, 27, 'KOH'), 0.01, 5, 0.005);
    expectRange((mL) => strengthByPhthalate(0.1, mL, 'KOH'), 1, 200, 0.5);
    expectRange((c) => run('strength', { titrant: 27, reagent: 'KOH', nominal: c }), 0.05, 60, 0.01);
  });
});
