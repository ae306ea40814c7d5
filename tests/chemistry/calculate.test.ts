import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BadInputError } from '../../src/chemistry/bad-input-error.ts';
import { calculate } from '../../src/chemistry/calculate.ts';
import type { Calculation } from '../../src/chemistry/calculation.ts';
import { calculations } from '../../src/chemistry/catalogue.ts';
import type { GivenInputs } from '../../src/chemistry/complete-inputs.ts';
import { calculationNamed } from './run.ts';
import { SAMPLES } from './samples.ts';

const given = (values: Record<string, number | string>): GivenInputs =>
  Object.fromEntries(Object.entries(values).map(([key, value]) => [key, { value }]));
const exactly = (values: Record<string, number | string>): GivenInputs =>
  Object.fromEntries(Object.entries(values).map(([key, value]) => [key, { value, plusMinus: 0 }]));

describe('the uncertainty of inputs reaches the result', () => {
  test('0.1 mL on a titration of 1 mL is 10 % of the acid value, and the titrant is named', () => {
    const inputs = { ...exactly({ sample: 1, blank: 0, strength: 1, oilDensity: 0.92, reagent: 'KOH' }) };
    const { result } = calculate(calculationNamed('titration'), {
      ...inputs,
      titrant: { value: 1, plusMinus: 0.1 },
    });
    expect(result.acidValue?.plusMinus).toBeCloseTo(0.1 * (result.acidValue?.value ?? 0), 6);
    expect(result.acidValue?.biggest).toBe('titrant');
  });

  test('two independent 3 % and 4 % parts of a product make 5 %', () => {
    const { result } = calculate(calculationNamed('bed'), {
      medium: { value: 10, plusMinus: 0.3 },
      capacity: { value: 500, plusMinus: 20 },
      soapIn: { value: 1000, plusMinus: 0 },
      batch: { value: 100, plusMinus: 0 },
      used: { value: 2, plusMinus: 0 },
    });
    expect(result.usedShare?.plusMinus).toBeCloseTo(0.05 * 40, 5);
    expect(result.usedShare?.biggest).toBe('capacity');
  });

  test('an input without its own ± takes that of a usual instrument', () => {
    const { inputsUsed } = calculate(calculationNamed('titration'), given({ titrant: 3, reagent: 'KOH' }));
    expect(inputsUsed.titrant).toEqual({ value: 3, unit: 'mL', plusMinus: 0.1, from: 'given' });
    expect(inputsUsed.strength).toEqual({ value: 1, unit: 'g/L', plusMinus: 0.02, from: 'default' });
    expect(inputsUsed.reagent).toEqual({ value: 'KOH', unit: 'text', plusMinus: 0, from: 'given' });
  });

  test('exact inputs give an exact result without a biggest part', () => {
    const { result } = calculate(calculationNamed('water'), exactly({ before: 100, after: 99 }));
    expect(result.water).toEqual({ value: 1, unit: '%', plusMinus: 0 });
  });

  test('at the end of a range the slope is taken from inside', () => {
    const dose = { oil: 1, titrant: 2, catalyst: 'KOH', sameTub: 'no', methanol: 20, profile: 'soybean' };
    const { result } = calculate(calculationNamed('dose'), {
      ...exactly(dose),
      purity: { value: 100, plusMinus: 2 },
    });
    // 9 g/L over the purity: 2 % of it.
    expect(result.perLitre?.plusMinus).toBeCloseTo(0.18, 3);
  });

  test('a result that an input does not touch gets nothing from it', () => {
    const { result } = calculate(
      calculationNamed('dose'),
      given({ oil: 100, titrant: 2, catalyst: 'KOH', ratio: 6 }),
    );
    expect(result.ratio).toEqual({ value: 6, unit: 'mol/mol', plusMinus: 0 });
  });

  test('a range that is one point still gives a result', () => {
    const { result } = calculate(calculationNamed('titration'), {
      ...exactly({ sample: 1, titrant: 0, reagent: 'KOH' }),
      blank: { value: 0, plusMinus: 0.1 },
    });
    expect(result.acidValue?.value).toBe(0);
  });
});

describe('inputs that do not fit are refused with what would be right', () => {
  const refusal = (name: string, inputs: GivenInputs): string => {
    try {
      calculate(calculationNamed(name), inputs);
    } catch (error) {
      if (error instanceof BadInputError) return error.message;
      throw error;
    }
    throw new Error('nothing was refused');
  };

  test('a missing key', () => {
    expect(refusal('titration', given({ titrant: 3 }))).toBe(
      '"titration" needs "reagent": alkali in the reference solution. One of: NaOH, KOH.',
    );
  });

  test('an unknown key', () => {
    expect(refusal('water', given({ before: 1, after: 1, during: 1 }))).toBe(
      '"water" has no input "during". It takes: before, after.',
    );
  });

  test.each(['constructor', 'toString'])('an unknown key that objects happen to have: %s', (key) => {
    expect(refusal('water', { ...given({ before: 100, after: 99 }), [key]: { value: 1 } })).toMatch(
      /has no input/,
    );
  });

  test('a wrong word', () => {
    expect(refusal('titration', given({ titrant: 3, reagent: 'lime' }))).toBe(
      '"reagent" is lime; use one of: NaOH, KOH.',
    );
  });

  test('a word for a number, a number for a word, and no number at all', () => {
    expect(refusal('water', given({ before: 'much', after: 1 }))).toMatch(/"before" needs a number in g/);
    expect(refusal('titration', given({ titrant: 3, reagent: 1 }))).toMatch(/"reagent" needs a word/);
    expect(refusal('water', given({ before: Number.NaN, after: 1 }))).toMatch(/needs a number/);
    expect(refusal('water', given({ before: Number.POSITIVE_INFINITY, after: 1 }))).toMatch(/needs a number/);
  });

  test('a negative ±', () => {
    const inputs = { before: { value: 100, plusMinus: -1 }, after: { value: 99 } };
    expect(refusal('water', inputs)).toBe('The ± of "before" must be zero or more.');
  });

  test('two that stand for each other', () => {
    expect(refusal('dose', given({ oil: 1, titrant: 1, ffa: 1, catalyst: 'KOH' }))).toMatch(
      /"ffa" or "titrant", not both/,
    );
  });
});

describe('every calculation of the catalogue', () => {
  const all = Object.values(calculations);

  test.each(all.map((c): [string, Calculation] => [c.name, c]))(
    '%s gives what it states, all finite',
    (name, c) => {
      const { result } = calculate(c, given(SAMPLES[name] ?? {}));
      const promised = Object.entries(c.outputs)
        .filter(([, spec]) => !spec.optional)
        .map(([key]) => key);
      expect(Object.keys(result)).toEqual(expect.arrayContaining(promised));
      for (const [key, output] of Object.entries(result)) {
        expect(Object.keys(c.outputs)).toContain(key);
        expect(Number.isFinite(output.value)).toBe(true);
        expect(Number.isFinite(output.plusMinus)).toBe(true);
      }
    },
  );

  test('has a sample here', () => {
    expect(Object.keys(SAMPLES).sort()).toEqual(Object.keys(calculations).sort());
  });

  test('a tighter input never widens a result', () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 16, maxLength: 16 });
    fc.assert(
      fc.property(fc.constantFrom(...all), shares, shares, (calculation, loose, tighten) => {
        const sample = Object.entries(SAMPLES[calculation.name] ?? {});
        const withSpread = (scale: (index: number) => number): GivenInputs =>
          Object.fromEntries(
            sample.map(([key, value], index) => {
              if (typeof value === 'string') return [key, { value }];
              return [key, { value, plusMinus: Math.abs(value) * 0.05 * scale(index % 16) }];
            }),
          );
        const wide = calculate(
          calculation,
          withSpread((i) => loose[i] ?? 0),
        ).result;
        const tight = calculate(
          calculation,
          withSpread((i) => (loose[i] ?? 0) * (tighten[i] ?? 0)),
        ).result;
        for (const key of Object.keys(wide)) {
          expect(tight[key]?.plusMinus ?? 0).toBeLessThanOrEqual((wide[key]?.plusMinus ?? 0) * (1 + 1e-12));
        }
      }),
      { numRuns: 200 },
    );
  });
});
