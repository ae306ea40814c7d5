import { describe, expect, it } from 'vitest';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { bandOf, bandsSchema } from '../../src/rulebook/bands.ts';
import { checkQuestionId } from '../../src/rulebook/trouble-questions.ts';
import { book } from '../rulebook/cases.ts';
import { talkAt } from './understood.ts';

/** What a line typed at a check comes to: the choice taken, or what is asked back. */
function typedAt(finding: string, line: string): { choice?: string; asks?: string } {
  const event = understand(book, talkAt(book, checkQuestionId(finding)), line);
  if (event?.type === 'AnswerGiven' && event.answer.kind === 'choice') return { choice: event.answer.choice };
  if (event?.type === 'AnswerDoubted' || event?.type === 'AnswerNotUnderstood') return { asks: event.says };
  throw new Error(`${finding}: ${line} gave ${event?.type}`);
}

describe('a band', () => {
  const bands = bandsSchema.parse({
    unit: 'ppm',
    of: { little: '<= 1000', some: '1000 to 3000', much: '> 3000' },
  });

  it.each([
    [0, 'little'],
    [1000, 'little'],
    [1000.5, 'some'],
    [3000, 'some'],
    [3000.5, 'much'],
  ])('holds its own readings, both ends within and the first of two: %d is %s', (value, choice) => {
    expect(bandOf(bands, value)).toBe(choice);
  });

  it('holds nothing that no choice covers', () => {
    const gap = bandsSchema.parse({ unit: '%', of: { low: '< 10', high: '>= 20' } });
    expect([bandOf(gap, 10), bandOf(gap, 20)]).toEqual([undefined, 'high']);
  });

  it.each(['about 5', '5 - 10', '=> 5', '5', '', '< x', '5 to'])('%j cannot be read', (text) => {
    expect(bandsSchema.safeParse({ unit: '%', of: { one: text } }).success).toBe(false);
  });
});

describe('the bands of the real checks', () => {
  const banded = book.diagnosis?.findings.filter(({ bands }) => bands !== undefined) ?? [];

  it.each(banded.map((finding) => [finding.id, finding] as const))(
    '%s: every choice has a band',
    (_id, finding) => {
      expect(Object.keys(finding.bands?.of ?? {}).sort()).toEqual(Object.keys(finding.choices).sort());
    },
  );

  it.each(banded.map((finding) => [finding.id, finding] as const))(
    '%s: no reading from 0 to 10 000 is left out',
    (_id, finding) => {
      const { bands } = finding;
      if (!bands) throw new Error('no bands');
      for (let value = 0; value <= 10_000; value = value < 100 ? value + 0.25 : value + 10)
        expect(bandOf(bands, value), `${value}`).toBeDefined();
    },
  );
});

describe('a reading typed at a check', () => {
  it.each([
    ['soap-crude', '1800 ppm', '1000-3000'],
    ['soap-crude', '4200 ppm', 'over-3000'],
    ['rxn-temp', '54 C', '45-60'],
    ['rxn-temp', '110 F', 'below-45'],
    ['rxn-temp', '145 F', 'above-60'],
    ['mix-time', '1 h', '60-or-more'],
    ['mix-time', '45 min', 'under-60'],
    ['yield', '82 %', '75-90'],
    ['titration', '3.1 mL', '2.7-5.5'],
    ['fuel-temp', '-5 C', 'below-10'],
    ['settle-hours', '6 hours', '4-12'],
    ['settle-hours', '1 day', '12-or-more'],
  ])('%s: %j is the choice %s', (finding, line, choice) => {
    expect(typedAt(finding, line)).toEqual({ choice });
  });

  it.each([
    ['soap-crude', 'about 1800 ppm'],
    ['rxn-temp', 'it should be 54 C'],
    ['rxn-temp', 'not 54 C'],
    ['mix-time', 'will be 60 min'],
    ['soap-crude', '1800'],
  ])('%s: %j is asked back', (finding, line) => {
    expect(typedAt(finding, line).asks).toBeDefined();
  });

  it('that could be the number of a choice is asked about', () => {
    expect(typedAt('titration', '3').asks).toMatch(/A reading, or the number of a choice\?.*Which one/);
  });

  it('that is the number of the very choice whose band holds it is taken', () => {
    expect(typedAt('titration', '1')).toEqual({ choice: 'up-to-2.7' });
  });

  it('in another dimension is not taken', () => {
    expect(typedAt('soap-crude', '54 C').asks).toBeDefined();
  });

  it('in words is read as ever', () => {
    expect(typedAt('rxn-temp', 'lukewarm')).toEqual({ choice: 'below-45' });
  });
});
