import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BadInputError } from '../../src/chemistry/bad-input-error.ts';
import { BASE_DOSE_G_PER_L, boughtAlkaliGPerL, titrantForFfaMl } from '../../src/chemistry/dose.ts';
import { convert } from '../../src/quantity/units.ts';
import { expectRange, expectWithin, run, runFor } from './run.ts';

describe('base and titration add up to the dose', () => {
  // Common practice, no source; arithmetic worked out by hand, tolerance 0.01 g/L.
  test('NaOH, 3.0 mL, base 3.5, pure: 6.5 g/L, and 650 g for 100 L', () => {
    const result = run('dose', { oil: 100, titrant: 3, base: 3.5, catalyst: 'NaOH' });
    expectWithin(result.perLitre as number, 6.5, 0.01);
    expectWithin(result.catalyst as number, 650, 1);
  });

  test('the same in KOH, mole for mole, is 9.12 g/L', () => {
    const factor = 56.105 / 39.997;
    const inputs = { oil: 1, titrant: 3 * factor, base: 3.5 * factor, catalyst: 'KOH' };
    expectWithin(runFor('dose', 'perLitre', inputs), 9.12, 0.01);
  });

  test('without a base of its own it takes 7 g/L of pure KOH or 5 g/L of pure NaOH', () => {
    expect(BASE_DOSE_G_PER_L).toEqual({ KOH: 7, NaOH: 5 });
    expect(runFor('dose', 'purePerLitre', { oil: 1, titrant: 0, catalyst: 'KOH' })).toBe(7);
    expect(runFor('dose', 'purePerLitre', { oil: 1, titrant: 0, catalyst: 'NaOH' })).toBe(5);
  });
});

describe('the purity is put in once', () => {
  // Worked out by hand for KOH of 90 %, T 2.5, base 7.0; tolerance 0.01 g/L.
  const inputs = { oil: 1, titrant: 2.5, base: 7, catalyst: 'KOH', purity: 90 };

  test('titrant from the same tub: 10.28 g/L', () => {
    expectWithin(runFor('dose', 'perLitre', { ...inputs, sameTub: 'yes' }), 10.28, 0.01);
  });

  test('titrant of true strength: 10.56 g/L', () => {
    expectWithin(runFor('dose', 'perLitre', inputs), 10.56, 0.01);
  });

  test('both ways agree when the same-tub figure is first made true', () => {
    const same = boughtAlkaliGPerL(7, 2.5, 0.9, true);
    expect(boughtAlkaliGPerL(7, 2.5 * 0.9, 0.9, false)).toBeCloseTo(same, 12);
  });

  test('dividing the titration twice would over-dose by T (1/p - 1): 0.56 g/L at T 5 and 0.9', () => {
    const excess = boughtAlkaliGPerL(7, 5, 0.9, false) - boughtAlkaliGPerL(7, 5, 0.9, true);
    expectWithin(excess, 0.56, 0.01);
  });

  test('a free fatty acid with sameTub=yes is refused, for it has no tub', () => {
    const odd = { oil: 1, ffa: 1, catalyst: 'KOH', purity: 90, sameTub: 'yes' };
    expect(() => run('dose', odd)).toThrow(BadInputError);
  });
});

describe('free fatty acid stands in for the titration', () => {
  test('an oil of 2.0 mL NaOH is one of 2.805 mL KOH (worked out, tolerance 0.005)', () => {
    const ffa = runFor('titration', 'ffa', { titrant: 2, reagent: 'NaOH' });
    expectWithin(titrantForFfaMl(ffa, 'NaOH'), 2, 0.005);
    expectWithin(titrantForFfaMl(ffa, 'KOH'), 2.805, 0.005);
  });

  test('titration, then dose by free acid, is the dose by titrant', () => {
    const ffa = runFor('titration', 'ffa', { titrant: 3, reagent: 'KOH' });
    const byFfa = runFor('dose', 'catalyst', { oil: 50, ffa, catalyst: 'KOH' });
    expect(byFfa).toBeCloseTo(runFor('dose', 'catalyst', { oil: 50, titrant: 3, catalyst: 'KOH' }), 6);
  });

  test('one percent eats 0.142 % NaOH or 0.199 % KOH (stoichiometry on oleic acid, worked out)', () => {
    // g of alkali for a litre of 0.92 kg; NREL/SR-510-36244 (from memory) prints 0.144 and 0.197.
    expectWithin(titrantForFfaMl(1, 'NaOH') / 9.2, 0.1416, 0.001);
    expectWithin(titrantForFfaMl(1, 'KOH') / 9.2, 0.1986, 0.001);
  });
});

describe('what cannot be dosed is refused', () => {
  test('each quantity has two ends', () => {
    expectRange((base) => boughtAlkaliGPerL(base, 1, 1, false), 0, 20, 0.1);
    expectRange((mL) => boughtAlkaliGPerL(7, mL, 1, false), 0, 30, 0.1);
    expectRange((p) => boughtAlkaliGPerL(7, 1, p, true), 0.5, 1, 0.01);
    expectRange((ffa) => titrantForFfaMl(ffa, 'KOH'), 0, 30, 0.1);
    expectRange((oil) => run('dose', { oil, titrant: 1, catalyst: 'KOH' }), 0.01, 100_000, 0.005);
    expectRange((p) => run('dose', { oil: 1, titrant: 1, catalyst: 'KOH', purity: p }), 50, 100, 1);
  });

  test('titrant and free fatty acid together', () => {
    expect(() => run('dose', { oil: 1, titrant: 1, ffa: 1, catalyst: 'KOH' })).toThrow(/not both/);
  });

  test('neither titrant nor free fatty acid', () => {
    expect(() => run('dose', { oil: 1, catalyst: 'KOH' })).toThrow(/"titrant" \(or "ffa"\)/);
  });

  test('methanol share and ratio together', () => {
    expect(() => run('dose', { oil: 1, titrant: 1, catalyst: 'KOH', methanol: 20, ratio: 6 })).toThrow(
      /not both/,
    );
  });
});

describe('properties of a dose', () => {
  const mL = fc.double({ min: 0, max: 30, noNaN: true });
  const purity = fc.double({ min: 0.5, max: 1, noNaN: true });

  test('more acid never means less alkali', () => {
    fc.assert(
      fc.property(mL, mL, purity, fc.boolean(), (a, b, p, sameTub) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)];
        return boughtAlkaliGPerL(7, less, p, sameTub) <= boughtAlkaliGPerL(7, more, p, sameTub);
      }),
    );
  });

  test('the same-tub dose is never above the other', () => {
    fc.assert(
      fc.property(
        mL,
        purity,
        (t, p) => boughtAlkaliGPerL(7, t, p, true) <= boughtAlkaliGPerL(7, t, p, false) + 1e-9,
      ),
    );
  });

  test('gallons turned into litres by the caller give the dose of those litres', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 500, noNaN: true }), (gallons) => {
        const litres = convert(gallons, 'galUS', 'L');
        const catalyst = runFor('dose', 'catalyst', { oil: litres, titrant: 2, catalyst: 'KOH' });
        expect(catalyst / gallons).toBeCloseTo(9 * 3.785411784, 6);
      }),
    );
  });
});
