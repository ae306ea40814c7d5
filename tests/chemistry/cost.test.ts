import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { batchCost } from '../../src/chemistry/cost.ts';
import { expectRange, run, runFor } from './run.ts';

const batch = {
  fuel: 100,
  oil: 105,
  oilPrice: 0.1,
  methanol: 21,
  methanolPrice: 0.9,
  catalyst: 1.1,
  catalystPrice: 3,
  energy: 20,
  energyPrice: 0.3,
};

describe('what a litre cost', () => {
  // Worked out by hand: 10.50 + 18.90 + 3.30 + 6.00 = 38.70.
  test('amounts times prices over the litres made', () => {
    const result = run('cost', batch);
    expect(result.total).toBeCloseTo(38.7, 9);
    expect(result.perLitre).toBeCloseTo(0.387, 9);
  });

  test('a US gallon costs 3.785411784 times a litre (NIST SP 811, from memory)', () => {
    const result = run('cost', batch);
    expect(result.perGallon).toBeCloseTo(0.387 * 3.785411784, 9);
  });

  test('recovered methanol is paid back at the price of methanol', () => {
    expect(runFor('cost', 'total', { ...batch, recovered: 3 })).toBeCloseTo(38.7 - 2.7, 9);
  });

  test('oil that one is paid to take makes it cheaper', () => {
    expect(runFor('cost', 'total', { ...batch, oilPrice: -0.1 })).toBeCloseTo(38.7 - 21, 9);
  });

  test('medium, hours and the rest count', () => {
    const more = { ...batch, medium: 0.5, mediumPrice: 10, labour: 4, labourPrice: 12, other: 7 };
    expect(runFor('cost', 'total', more)).toBeCloseTo(38.7 + 5 + 48 + 7, 9);
  });

  test('more of a thing at a price above zero never makes fuel cheaper', () => {
    const litres = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(litres, litres, (a, b) => {
        const cost = (methanol: number): number => runFor('cost', 'perLitre', { ...batch, methanol });
        return cost(Math.min(a, b)) <= cost(Math.max(a, b)) + 1e-12;
      }),
    );
  });

  test('each quantity has two ends', () => {
    expectRange((fuel) => run('cost', { ...batch, fuel }), 0.01, 100_000, 0.005);
    expectRange((recovered) => run('cost', { ...batch, recovered }), 0, 21, 0.1);
    expectRange((price) => batchCost([{ amount: 1, price }]), -1e9, 1e9, 1);
    expect(() => batchCost([{ amount: -1, price: 1 }])).toThrow(/amount/);
  });
});
