import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readQuantity } from '../../src/quantity/read-quantity.ts';
import { type BothOptions, bothSystems, type ShowOptions, showQuantity } from '../../src/quantity/show.ts';
import { unitTable } from '../../src/quantity/unit-table.ts';
import { type UnitId, unitOf } from '../../src/quantity/units.ts';

const ids = Object.keys(unitTable) as UnitId[];
const withSpaces = (text: string) => text.replaceAll('\u00a0', ' ');

test.each([
  [54, 'degC', {}, '54 °C'],
  [54.444, 'degC', {}, '54 °C'],
  [54.5, 'degC', {}, '54.5 °C'],
  [-0.2, 'degC', {}, '-0.2 °C'],
  [-0.04, 'degC', {}, '0 °C'],
  [2.5, 'mL', {}, '2.5 mL'],
  [151.41647, 'L', {}, '151 L'],
  [1234.5, 'L', {}, '1235 L'],
  [0.0004, 'mL', {}, '0.0004 mL'],
  [1, 'day', {}, '1 day'],
  [2, 'day', {}, '2 days'],
  [7, 'pH', {}, 'pH 7'],
  [3, '1', {}, '3'],
  [20, '%', {}, '20 %'],
  [10.62, 'g/L', { plusMinus: 0.41 }, '10.6 ± 0.4 g/L'],
  [10.62, 'g/L', { plusMinus: 0.14 }, '10.62 ± 0.14 g/L'],
  [2.5, 'mL', { plusMinus: 0.096 }, '2.50 ± 0.10 mL'],
  [151, 'L', { plusMinus: 21 }, '150 ± 20 L'],
  [151, 'L', { plusMinus: 12 }, '151 ± 12 L'],
  [0.3, 'L', { plusMinus: 20 }, '0 ± 20 L'],
  [2.5, 'mL', { plusMinus: 0 }, '2.5 mL'],
  [12345, 'L', { digits: 3 }, '12300 L'],
  [30, 'L', { digits: 3 }, '30.0 L'],
  [99.96, 'L', { digits: 3 }, '100 L'],
  [0, 'L', { digits: 3 }, '0 L'],
  [151.41647, 'L', { system: 'US' }, '40 gal'],
  [40, 'galUS', { system: 'metric' }, '151 L'],
  [2.5, 'mL', { system: 'US' }, '2.5 mL'],
  [54, 'degC', { system: 'US', plusMinus: 5 }, '129 ± 9 °F'],
] satisfies [number, UnitId, ShowOptions, string][])(
  '%d %s with %o is shown as "%s"',
  (value, unit, options, text) => {
    expect(withSpaces(showQuantity(value, unit, options))).toBe(text);
  },
);

test.each([
  [54.444, 'degC', {}, '54 °C (130 °F)'],
  [54.4444444, 'degC', { typedUnit: 'degF' }, '130 °F (54 °C)'],
  [151.41647, 'L', {}, '151 L (40 gal)'],
  [151.41647, 'L', { typedUnit: 'galUS' }, '40 gal (151 L)'],
  [181.8436, 'L', { typedUnit: 'galImp' }, '40 imperial gal (182 L)'],
  [118.294, 'mL', { typedUnit: 'cup' }, '0.5 cups (118 mL)'],
  [2.5, 'mL', {}, '2.5 mL'],
  [0.0025, 'L', { typedUnit: 'mL' }, '2.5 mL (0.0025 L)'],
  [2, 'kg', {}, '2 kg (4.41 lb)'],
  [151.41647, 'L', { plusMinus: 4 }, '151 ± 4 L (40.0 ± 1.1 gal)'],
  [90, 'min', {}, '90 min'],
] satisfies [number, UnitId, BothOptions, string][])(
  '%d %s with %o is shown both ways as "%s"',
  (value, unit, options, text) => {
    expect(withSpaces(bothSystems(value, unit, options))).toBe(text);
  },
);

test('the space before a unit does not break, so that number and unit stay on one line', () => {
  expect(showQuantity(54, 'degC')).toBe('54\u00a0°C');
  expect(bothSystems(54, 'degC')).toContain('\u00a0°F');
});

test('what is not known is said in words', () => {
  expect(showQuantity(Number.NaN, 'L')).toBe('not known');
  expect(bothSystems(Number.POSITIVE_INFINITY, 'L')).toBe('not known');
  expect(withSpaces(showQuantity(3, 'L', { plusMinus: Number.NaN }))).toBe('3 L (± not known)');
});

describe('whatever the number', () => {
  const anything = fc.double();
  const options = fc.record(
    {
      plusMinus: anything,
      digits: fc.integer({ min: -2, max: 400 }),
      system: fc.constantFrom('metric' as const, 'US' as const),
    },
    { requiredKeys: [] },
  );

  test('NaN, Infinity and bare exponents are never shown, and thousands are not grouped', () => {
    fc.assert(
      fc.property(anything, fc.constantFrom(...ids), options, (value, id, chosen) => {
        for (const text of [showQuantity(value, id, chosen), bothSystems(value, id, chosen)]) {
          expect(text).not.toMatch(/NaN|Infinity|undefined|\de[+-]|-0(?![.\d])|\d,\d/);
        }
      }),
      { numRuns: 2000 },
    );
  });

  test('the ± shown has one digit, or two when it starts with 1, and the value as many places', () => {
    const value = fc.double({ min: -1e5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(value, fc.double({ min: 1e-4, max: 1e3, noNaN: true }), (v, plusMinus) => {
        const [shown = '', spread = ''] = withSpaces(showQuantity(v, '1', { plusMinus })).split(' ± ');
        const digits = spread
          .replace('.', '')
          .replace(/^0+/, '')
          .replace(/(?<=^[2-9])0+$/, '')
          .replace(/(?<=^1\d)0+$/, '');
        expect(digits).toMatch(/^(?:[2-9]|1\d?)$/);
        expect(shown.split('.')[1]?.length ?? 0).toBe(spread.split('.')[1]?.length ?? 0);
        expect(Math.abs(Number(shown) - v)).toBeLessThanOrEqual(plusMinus);
      }),
    );
  });

  test('what is shown can be typed back and means the same', () => {
    const readable = ids.filter((id) => unitOf(id).shown[1] !== '');
    fc.assert(
      fc.property(fc.constantFrom(...readable), fc.integer({ min: -9999, max: 9999 }), (id, hundredths) => {
        const value = hundredths / 100;
        const read = readQuantity(showQuantity(value, id, { plusMinus: 0.2 }), { unit: id });
        if ('problem' in read) throw new Error(`${showQuantity(value, id)}: ${read.say}`);
        expect(Math.abs(read.value - value)).toBeLessThanOrEqual(0.051);
        expect(read.plusMinus).toBeCloseTo(0.2, 9);
        expect(read.typed.unit).toBe(id);
      }),
      { numRuns: 1000 },
    );
  });
});
