import fc from 'fast-check';
import { unit } from 'mathjs';
import { describe, expect, test } from 'vitest';
import { unitTable } from '../../src/quantity/unit-table.ts';
import {
  convert,
  convertSpread,
  dimensionOf,
  dimensionWords,
  isUnitId,
  sameDimension,
  UnitError,
  type UnitId,
  unitsFor,
} from '../../src/quantity/units.ts';

const ids = Object.keys(unitTable) as UnitId[];

describe('conversion factors are the published ones', () => {
  // NIST SP 811 appendix B.8 and NIST Handbook 44 appendix C: from memory. Exact unless digits say otherwise.
  test.each([
    [1, 'galUS', 'L', 3.785411784],
    [1, 'quart', 'L', 0.946352946],
    [1, 'pint', 'L', 0.473176473],
    [1, 'cup', 'mL', 236.5882365],
    [1, 'flozUS', 'mL', 29.5735295625],
    [1, 'tbsp', 'mL', 14.78676478125],
    [1, 'tsp', 'mL', 4.92892159375],
    [1, 'galImp', 'L', 4.54609],
    [1, 'pintImp', 'mL', 568.26125],
    [1, 'flozImp', 'mL', 28.4130625],
    [1, 'lb', 'kg', 0.45359237],
    [1, 'oz', 'g', 28.349523125],
    [1, 'ft', 'm', 0.3048],
    [1, 'in', 'mm', 25.4],
    [1, 'bar', 'kPa', 100],
    [1, 'day', 'h', 24],
    [1, 'kWh', 'MJ', 3.6],
    [32, 'degF', 'degC', 0],
    [212, 'degF', 'degC', 100],
    [-40, 'degF', 'degC', -40],
    [9, 'degFdiff', 'K', 5],
    [1, '%', 'ppm', 10000],
    [1, 'g/mL', 'g/L', 1000],
  ] satisfies [number, UnitId, UnitId, number][])('%d %s is %s %d', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBeCloseTo(expected, 10);
  });

  test('a pound on a square inch is 6.894757 kPa', () => {
    // NIST SP 811 appendix B.8 (from memory): 6.894 757 E+03 Pa, seven digits.
    expect(convert(1, 'psi', 'kPa')).toBeCloseTo(6.894757, 6);
  });

  test('the US gallon is 231 cubic inches, as it is defined', () => {
    // NIST Handbook 44 appendix C (from memory).
    expect(convert(1, 'galUS', 'L')).toBeCloseTo((231 * convert(1, 'in', 'cm') ** 3) / 1000, 12);
  });
});

// mathjs is left out where it is wrong for us: its teaspoon is 5 mL and its tablespoon 15 mL, it has no
// imperial measure, and its temperatures are points, not differences.
const sameInMathjs: Partial<Record<UnitId, string>> = {
  degC: 'degC',
  degF: 'degF',
  L: 'L',
  mL: 'mL',
  cL: 'cL',
  dL: 'dL',
  m3: 'm3',
  galUS: 'gallon',
  cup: 'cup',
  pint: 'pint',
  quart: 'quart',
  flozUS: 'fluidounce',
  g: 'g',
  kg: 'kg',
  mg: 'mg',
  lb: 'lbm',
  oz: 'oz',
  s: 's',
  min: 'minute',
  h: 'hour',
  day: 'day',
  week: 'week',
  month: 'month',
  W: 'W',
  kW: 'kW',
  kWh: 'kWh',
  MJ: 'MJ',
  'g/L': 'g/L',
  'g/mL': 'g/mL',
  'kg/m3': 'kg/m^3',
  'g/galUS': 'g/gallon',
  'L/min': 'L/minute',
  'L/h': 'L/hour',
  'galUS/min': 'gallon/minute',
  'galUS/h': 'gallon/hour',
  kPa: 'kPa',
  bar: 'bar',
  mbar: 'mbar',
  psi: 'psi',
  m: 'm',
  km: 'km',
  cm: 'cm',
  mm: 'mm',
  ft: 'ft',
  in: 'inch',
  'kJ/kg': 'kJ/kg',
  'MJ/kg': 'MJ/kg',
};

test('the table agrees with mathjs for every pair of units that mathjs has right', () => {
  let pairs = 0;
  for (const from of ids) {
    for (const to of unitsFor(dimensionOf(from))) {
      const [a, b] = [sameInMathjs[from], sameInMathjs[to]];
      if (a === undefined || b === undefined) continue;
      const theirs = unit(12.5, a).toNumber(b);
      // 1e-9: mathjs holds its psi to ten digits only.
      expect(Math.abs(convert(12.5, from, to) / theirs - 1), `${from} to ${to}`).toBeLessThan(1e-9);
      pairs++;
    }
  }
  expect(pairs).toBeGreaterThan(150);
});

describe('turning a value into another unit', () => {
  const pair = fc
    .constantFrom(...ids)
    .chain((from) => fc.tuple(fc.constant(from), fc.constantFrom(...unitsFor(dimensionOf(from)))));
  const number = fc.double({ min: -1e6, max: 1e6, noNaN: true });

  test('and back gives the value again', () => {
    fc.assert(
      fc.property(pair, number, ([from, to], value) => {
        const back = convert(convert(value, from, to), to, from);
        expect(Math.abs(back - value)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(value)));
      }),
    );
  });

  test('keeps the order, and turns a difference by the scale alone', () => {
    fc.assert(
      fc.property(pair, number, number, ([from, to], a, b) => {
        const difference = convert(a, from, to) - convert(b, from, to);
        const expected = convertSpread(a - b, from, to);
        const slack = 1e-9 * Math.max(1, Math.abs(convert(a, from, to)), Math.abs(convert(b, from, to)));
        expect(Math.abs(difference - expected)).toBeLessThanOrEqual(slack);
      }),
    );
  });

  test('of something else is refused in a sentence', () => {
    expect(() => convert(1, 'L', 'kg')).toThrow(UnitError);
    expect(() => convert(1, 'L', 'kg')).toThrow(
      'L is a volume and kg is a weight: one cannot be turned into the other.',
    );
    expect(() => convertSpread(1, 'degC', 'K')).toThrow(UnitError);
  });

  test('is refused for every pair of different dimensions', () => {
    for (const a of ids)
      for (const b of ids) if (!sameDimension(a, b)) expect(() => convert(1, a, b)).toThrow(UnitError);
  });
});

describe('the table of units', () => {
  test('has a base of factor 1 and words for every dimension', () => {
    for (const dimension of Object.keys(dimensionWords) as (keyof typeof dimensionWords)[]) {
      expect(
        unitsFor(dimension).some((id) => unitTable[id].factor === 1),
        dimension,
      ).toBe(true);
    }
  });

  test('never lets one typed word name two units of the same dimension', () => {
    const seen = new Map<string, string>();
    for (const id of ids) {
      for (const typed of new Set([id, ...unitTable[id].typed].map((word) => word.toLowerCase()))) {
        const key = `${dimensionOf(id)} ${typed}`;
        expect(seen.get(key), `${key} for ${id}`).toBeUndefined();
        seen.set(key, id);
      }
    }
  });

  test('knows its own ids and no others', () => {
    expect(ids.every(isUnitId)).toBe(true);
    for (const other of ['gal', 'toString', '__proto__', '', 'constructor'])
      expect(isUnitId(other)).toBe(false);
  });
});
