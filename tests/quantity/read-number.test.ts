import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readNumeral } from '../../src/quantity/numeral.ts';
import { readNumber } from '../../src/quantity/read-number.ts';

// What the words mean is ordinary English and needs no source.

function numberIn(text: string): number {
  const read = readNumber(text);
  if ('problem' in read) throw new Error(`${text}: ${read.say}`);
  return read.value;
}

const plainNumbers: [string, number][] = [
  ['2.5', 2.5],
  ['2,5', 2.5],
  ['.5', 0.5],
  ['0,125', 0.125],
  ['0.100', 0.1],
  ['130.', 130],
  ['1,234.5', 1234.5],
  ['1.234,5', 1234.5],
  ['1,000,000', 1e6],
  ["1'000", 1000],
  ['1\u00a0000', 1000],
  ['1234.567', 1234.567],
  ['1e3', 1000],
  ['2 1/2', 2.5],
  ['2-1/2', 2.5],
  ['1/2', 0.5],
  ['3/4', 0.75],
  ['1⁄2', 0.5],
  ['½', 0.5],
  ['2½', 2.5],
  ['2 ¾', 2.75],
  ['2 and a half', 2.5],
  ['2 and 1/2', 2.5],
  ['-5', -5],
  ['−10', -10],
  ['+7', 7],
  ['minus five', -5],
  ['minus 2 1/2', -2.5],
];

const spokenNumbers: [string, number][] = [
  ['two and a half', 2.5],
  ['two-and-a-half', 2.5],
  ['half', 0.5],
  ['a half', 0.5],
  ['a quarter', 0.25],
  ['three quarters', 0.75],
  ['two thirds', 2 / 3],
  ['one and three quarters', 1.75],
  ['a dozen', 12],
  ['half a dozen', 6],
  ['two dozen', 24],
  ['2 dozen', 24],
  ['forty', 40],
  ['fourty', 40],
  ['forty-five', 45],
  ['twenty five', 25],
  ['nineteen', 19],
  ['a hundred', 100],
  ['a hundred and thirty', 130],
  ['one hundred thirty', 130],
  ['2 hundred', 200],
  ['one thousand two hundred and five', 1205],
  ['two point five', 2.5],
  ['point oh five', 0.05],
  ['nought point two', 0.2],
  ['zero', 0],
];

test.each([...plainNumbers, ...spokenNumbers])('"%s" is read as %d', (text, value) => {
  expect(numberIn(text)).toBeCloseTo(value, 12);
});

const hedged: [string, number][] = [
  ['about 130', 130],
  ['around 40', 40],
  ['roughly two and a half', 2.5],
  ['~130', 130],
  ['130ish', 130],
  ['130-ish', 130],
  ['130 or so', 130],
  ['maybe about 54', 54],
  ['close to 60', 60],
  ['a couple', 2],
  ['130 give or take', 130],
];

test.each(hedged)('"%s" is %d, and known to be rough', (text, value) => {
  expect(readNumber(text)).toMatchObject({ value, approx: true });
});

const ranges: [string, number, number][] = [
  ['2 to 3', 2, 3],
  ['2-3', 2, 3],
  ['2–3', 2, 3],
  ['between 2 and 3', 2, 3],
  ['5 or 6', 5, 6],
  ['1 1/2 to 2', 1.5, 2],
  ['-10 to -5', -10, -5],
  ['5 -10', 5, 10],
  ['twenty to thirty', 20, 30],
];

test.each(ranges)('"%s" is the middle of %d to %d with half the width as ±', (text, low, high) => {
  expect(readNumber(text)).toMatchObject({ value: (low + high) / 2, plusMinus: (high - low) / 2, low, high });
});

test.each([
  ['130 ± 2', 2],
  ['130 +/- 2', 2],
  ['130+-2', 2],
  ['130 plus or minus two', 2],
  ['130 give or take 5', 5],
  ['130 ± 10%', 13],
])('"%s" carries its own ±', (text, plusMinus) => {
  expect(readNumber(text)).toMatchObject({ value: 130, plusMinus });
});

test.each([
  ['more than 5', 'above'],
  ['at least 5', 'above'],
  ['just over 5', 'above'],
  ['no less than 5', 'above'],
  ['under 5', 'below'],
  ['<5', 'below'],
  ['no more than 5', 'below'],
  ['up to 5', 'below'],
])('"%s" is a limit, not a reading', (text, bound) => {
  expect(readNumber(text)).toMatchObject({ value: 5, bound, approx: true });
});

describe('what can be read two ways is asked about', () => {
  test.each([
    ['1,000', [1000, 1]],
    ['1.000', [1, 1000]],
    ['12,500', [12500, 12.5]],
    ['1 000', [1000, 0]],
    ['2 - 1/2', [2, 0.5]],
    ['60 to 54', [60, 54]],
    ['2 x 20', [40, 20]],
    ['40 + 5', [45, 5]],
  ])('%s', (text, readings) => {
    expect(readNumber(text)).toMatchObject({ problem: 'ambiguous', readings });
  });
});

test.each([
  '',
  'hello',
  'a few',
  'B100',
  '1.2.3',
  '12/11/2026',
  '0/0',
  '1/0',
  'not 130',
  'the one on the left',
  '1:30',
  '🛢',
  'third',
])('"%s" holds no number to take', (text) => {
  expect(readNumber(text)).toMatchObject({ problem: 'no-number' });
});

test('what stands behind the number is handed back, and the place of the number', () => {
  const text = 'it was about 130 F I think';
  const read = readNumber(text);
  if ('problem' in read) throw new Error(read.say);
  expect(read.rest).toBe('F I think');
  expect(text.slice(read.spanStart, read.spanEnd)).toBe('about 130');
});

describe('whatever is typed', () => {
  const pieces = [
    '2',
    '1/2',
    ' ',
    'and',
    'a',
    'half',
    '±',
    '-',
    'to',
    '1,000',
    '.',
    'hundred',
    'minus',
    '½',
    'x',
    '+',
    'about',
    'not',
    'between',
    '9e9',
    'e',
    '0',
    'dozen',
    'point',
    '%',
    'ph',
    ':',
    '12:30',
  ];
  const lines = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 60 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join('')),
    fc.array(fc.constantFrom(...pieces), { maxLength: 14 }).map((parts) => parts.join(' ')),
  );

  test('the reader never throws, and never hands back something that is not a number', () => {
    fc.assert(
      fc.property(lines, (text) => {
        const read = readNumber(text);
        if ('problem' in read) expect(read.say.length).toBeGreaterThan(10);
        else {
          expect(Number.isFinite(read.value)).toBe(true);
          expect(read.plusMinus ?? 0).toBeGreaterThanOrEqual(0);
          expect(read.spanEnd).toBeGreaterThan(read.spanStart);
          expect(read.spanEnd).toBeLessThanOrEqual(text.length);
        }
      }),
      { numRuns: 3000 },
    );
  });

  test('a plain decimal number is read exactly, with a point or a comma', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 99999 }),
        fc.integer({ min: 0, max: 99 }),
        (whole, hundredths) => {
          const decimals = String(hundredths).padStart(2, '0');
          const value = Number(`${whole}.${decimals}`);
          expect(numberIn(`${whole}.${decimals}`)).toBe(value);
          expect(numberIn(`${whole},${decimals}`)).toBe(value);
        },
      ),
    );
  });

  test('a very long line is read in good time', () => {
    const long = '1, '.repeat(20000) + '9'.repeat(20000) + "a'".repeat(20000);
    const before = performance.now();
    readNumber(long);
    readNumber('1,'.repeat(40000));
    expect(performance.now() - before).toBeLessThan(2000);
  });

  test('digits without end are no number rather than infinity', () => {
    expect(readNumeral('9'.repeat(400))).toEqual([]);
  });
});
