import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readClock } from '../../src/quantity/read-clock.ts';

type Row = [typed: string, hour: number, minute: number];

const certain: Row[] = [
  ['14:35', 14, 35],
  ['02:35', 2, 35],
  ['0:15', 0, 15],
  ['1435', 14, 35],
  ['0230', 2, 30],
  ['14.35', 14, 35],
  ['14h35', 14, 35],
  ['2:35 pm', 14, 35],
  ['2:35pm', 14, 35],
  ['2.35 p.m.', 14, 35],
  ['2 pm', 14, 0],
  ['12:15 am', 0, 15],
  ['12 pm', 12, 0],
  ['13:00 in the afternoon', 13, 0],
  ['at 7 in the morning', 7, 0],
  ['quarter to three in the afternoon', 14, 45],
  ['noon', 12, 0],
  ['midday', 12, 0],
  ['midnight', 0, 0],
  ['ten past noon', 12, 10],
  ['quarter to midnight', 23, 45],
  ['five past midnight', 0, 5],
  ['24:00', 0, 0],
];

const eitherHalf: Row[] = [
  ['2:35', 2, 35],
  ['235', 2, 35],
  ['12:30', 12, 30],
  ['started at 2:35', 2, 35],
  ['130 F at 2:35', 2, 35],
  ['a quarter past two', 2, 15],
  ['half past three', 3, 30],
  ['twenty to five', 4, 40],
  ['20 past 9', 9, 20],
  ['five minutes to six', 5, 55],
  ['ten to one', 12, 50],
  ["two o'clock", 2, 0],
  ['two thirty', 2, 30],
  ['twelve oh five', 12, 5],
];

test.each(certain)('"%s" is %d h %d, whatever the half of the day', (typed, hour, minute) => {
  expect(readClock(typed)).toEqual({ hour, minute, ambiguous12h: false });
});

test.each(eitherHalf)('"%s" is %d h %d in one half of the day or the other', (typed, hour, minute) => {
  expect(readClock(typed)).toEqual({ hour, minute, ambiguous12h: true });
});

test.each(['25:00', '14:75', '14:35 am', '0:30 pm', '2575', '24:01'])('"%s" is no time of day', (typed) => {
  expect(readClock(typed)).toMatchObject({ problem: expect.stringMatching(/no such time/) });
});

// 'half three' is 3:30 to some and 2:30 to others, so it is asked again.
test.each(['', 'hello', '2', 'half three', '2.5', '90 minutes'])(
  '"%s" does not say a time of day',
  (typed) => {
    expect(readClock(typed)).toMatchObject({ problem: expect.stringMatching(/14:35 or 2:35 pm/) });
  },
);

test('every minute of the day is read back from 24-hour and 12-hour writing', () => {
  for (let total = 0; total < 1440; total++) {
    const [hour, minute] = [Math.floor(total / 60), total % 60];
    const two = (n: number) => String(n).padStart(2, '0');
    const exact = { hour, minute, ambiguous12h: false };
    expect(
      readClock(`${hour % 12 === 0 ? 12 : hour % 12}:${two(minute)} ${hour < 12 ? 'am' : 'pm'}`),
    ).toEqual(exact);
    expect(readClock(`${two(hour)}${two(minute)}`)).toMatchObject({ hour, minute });
    expect(readClock(`${two(hour)}:${two(minute)}`)).toMatchObject({ hour, minute });
  }
});

test('whatever is typed, the reader never throws and gives a real time or a sentence', () => {
  const pieces = [
    '12',
    ':',
    '30',
    'half',
    'past',
    'to',
    'quarter',
    'noon',
    'midnight',
    'pm',
    'a',
    'm',
    '.',
    'minus',
    'two',
    'hundred',
    'h',
    '59',
    '0',
    "o'clock",
    'in the morning',
    '½',
    '1/2',
  ];
  const lines = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.array(fc.constantFrom(...pieces), { maxLength: 8 }).map((parts) => parts.join(' ')),
  );
  fc.assert(
    fc.property(lines, (text) => {
      const read = readClock(text);
      if ('problem' in read) return read.problem.length > 20;
      return (
        Number.isInteger(read.hour) &&
        read.hour >= 0 &&
        read.hour < 24 &&
        Number.isInteger(read.minute) &&
        read.minute >= 0 &&
        read.minute < 60
      );
    }),
    { numRuns: 3000 },
  );
});
