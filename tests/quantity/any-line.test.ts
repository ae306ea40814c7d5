import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readQuantity } from '../../src/quantity/read-quantity.ts';
import { unitTable } from '../../src/quantity/unit-table.ts';
import type { UnitId } from '../../src/quantity/units.ts';

const ids = Object.keys(unitTable) as UnitId[];
const pieces = [
  '2',
  '130',
  '1/2',
  '2.5',
  '1,000',
  '½',
  'half',
  'a',
  'an',
  'and',
  'of',
  'two',
  'hundred',
  'dozen',
  'point',
  'minus',
  'about',
  'over',
  'not',
  'between',
  'to',
  'or',
  'so',
  '-',
  '±',
  '+',
  'x',
  '/',
  'per',
  '.',
  ',',
  '%',
  '°',
  'degrees',
  'C',
  'F',
  'gal',
  'L',
  'ml',
  'fl',
  'oz',
  'lb',
  'h',
  'hour',
  'min',
  'in',
  'the',
  'tank',
  'pH',
  'mg',
  'KOH',
  'g',
  'drops',
  '12:30',
  '12:75',
  "'",
  '"',
  '\u00a0',
  '9e99',
  'n',
  'm',
];
const lines = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.array(fc.constantFrom(...pieces), { maxLength: 12 }).map((parts) => parts.join('')),
  fc.array(fc.constantFrom(...pieces), { maxLength: 12 }).map((parts) => parts.join(' ')),
);
const gallons = fc.constantFrom('US' as const, 'imperial' as const);

test('whatever is typed, the answer is a finite number in the unit asked for, or a sentence', () => {
  fc.assert(
    fc.property(lines, fc.constantFrom(...ids), gallons, (text, unit, gallon) => {
      const read = readQuantity(text, { unit, gallon, plausible: [0, 200] });
      if ('problem' in read) {
        expect(read.say).toMatch(/[.]$/);
        expect(read.say).not.toMatch(/NaN|undefined|Infinity/);
        return;
      }
      expect(read.unit).toBe(unit);
      expect(Number.isFinite(read.value)).toBe(true);
      expect(Number.isFinite(read.typed.value)).toBe(true);
      expect(read.plusMinus ?? 0).toBeGreaterThanOrEqual(0);
      expect(read.spanStart).toBeGreaterThanOrEqual(0);
      expect(read.spanEnd).toBeGreaterThan(read.spanStart);
      expect(read.spanEnd).toBeLessThanOrEqual(text.length);
    }),
    { numRuns: 6000 },
  );
});

test('a number with its unit is found wherever it stands in a line of other words', () => {
  const word = fc.constantFrom(
    'oil',
    'looks',
    'fine',
    'the',
    'pump',
    'hums',
    'ok,',
    'and',
    'we',
    'wait',
    'until',
    'dark',
  );
  const chatter = fc.array(word, { maxLength: 6 }).map((words) => words.join(' '));
  fc.assert(
    fc.property(chatter, chatter, fc.integer({ min: 1, max: 200 }), (before, after, degrees) => {
      const read = readQuantity(`${before} ${degrees} F ${after}`, { unit: 'degF' });
      expect(read).toMatchObject({ value: degrees, typed: { unit: 'degF' } });
    }),
  );
});

test('a very long line is read in good time', () => {
  const lines = [
    '1 '.repeat(20000),
    'about '.repeat(20000),
    '1.'.repeat(20000),
    'a half of a '.repeat(5000),
    '1 h '.repeat(5000),
  ];
  const before = performance.now();
  for (const line of lines) readQuantity(line, { unit: 'min' });
  expect(performance.now() - before).toBeLessThan(5000);
});
