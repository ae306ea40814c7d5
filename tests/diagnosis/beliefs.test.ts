import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beliefs, ranked } from '../../src/diagnosis/beliefs.ts';
import { chancesOf } from '../../src/diagnosis/chances.ts';
import { evidenceFor } from '../../src/diagnosis/evidence.ts';
import { choicesLeft, type Found, type Trouble } from '../../src/diagnosis/trouble.ts';
import type { Diagnosis } from '../../src/rulebook/diagnosis-schema.ts';
import { book } from '../rulebook/cases.ts';
import { sketch } from './small-diagnosis.ts';

function bookDiagnosis(): Diagnosis {
  if (!book.diagnosis) throw new Error('the rules have no diagnosis');
  return book.diagnosis;
}
const real = bookDiagnosis();

const nothingKnown: Trouble = { found: [], passed: [] };
const found = (...pairs: [string, string][]): Trouble => ({
  ...nothingKnown,
  found: pairs.map(([finding, choice]) => ({ finding, choice })),
});
const believed = (diagnosis: Diagnosis, trouble: Trouble) => Array.from(beliefs(diagnosis, trouble));
const chances = (diagnosis: Diagnosis, finding: number, cause: number) =>
  Array.from(chancesOf(diagnosis).of[finding]?.[cause] ?? []);

function expectClose(got: readonly number[], wanted: readonly number[], digits = 6): void {
  expect(got).toHaveLength(wanted.length);
  for (const [index, one] of wanted.entries()) expect(got[index]).toBeCloseTo(one, digits);
}

describe('against a published problem', () => {
  // Gigerenzer and Hoffrage 1995, Psychological Review 102:684, the mammography problem; from memory.
  it('turns 1 % prevalence, 80 % hits and 9.6 % false alarms into 7.8 %', () => {
    const problem = sketch({
      causes: {
        cancer: { odds: { early: 1 }, likely: { mammogram: { positive: 'almost-always' } } },
        none: { odds: { early: 99 }, likely: { mammogram: { positive: 'rarely' } } },
      },
      findings: { mammogram: { shares: { positive: 0.1, negative: 0.9 } } },
      weighing: { words: { 'almost-always': 0.8, often: 0.7, sometimes: 0.35, rarely: 0.096 } },
    });
    const at = (choice: string) => beliefs(problem, { ...found(['mammogram', choice]), stage: 'early' })[0];
    expect(at('positive')).toBeCloseTo(0.078, 3);
    // .01 x .2 / (.01 x .2 + .99 x .904) = .002 / .89696
    expect(at('negative')).toBeCloseTo(0.00223, 5);
  });
});

describe('what a cause makes likely', () => {
  const shares = { a: 0.5, b: 0.3, c: 0.2 };
  const of = (likely: Record<string, 'almost-always' | 'often' | 'sometimes' | 'rarely'>) =>
    chances(sketch({ causes: { one: { likely: { look: likely } } }, findings: { look: { shares } } }), 0, 0);

  it('gives a named choice its word, and the others the rest by their usual shares', () => {
    // .3 is left for b and c, three to two.
    expectClose(of({ a: 'often' }), [0.7, 0.18, 0.12]);
  });

  it('holds the named choices to .98 in sum', () => {
    expectClose(of({ a: 'almost-always', b: 'almost-always' }), [0.49, 0.49, 0.02]);
  });

  it('scales to 1 when every choice is named', () => {
    // .70 + .35 + .08 = 1.13
    expectClose(of({ a: 'often', b: 'sometimes', c: 'rarely' }), [0.7 / 1.13, 0.35 / 1.13, 0.08 / 1.13]);
  });

  it('leaves a check it says nothing of at the usual shares, so that its answer moves nothing', () => {
    const two = sketch({ causes: { one: {}, other: {} }, findings: { look: { shares } } });
    expectClose(chances(two, 0, 1), [0.5, 0.3, 0.2]);
    expectClose(believed(two, found(['look', 'c'])), [0.5, 0.5]);
  });
});

describe('what is thought before any check', () => {
  const three = sketch({
    causes: {
      first: { odds: { early: 3, late: 1 } },
      second: { odds: { early: 2, late: 8 } },
      third: { odds: { early: 1 } },
    },
    findings: {},
    complaints: { bad: { core: ['first'], possible: ['second'], stages: ['early', 'late'] } },
  });

  it('is the odds at the stage times how well the cause fits the complaint', () => {
    // 3 x 1, 2 x .3, 1 x .03: of 3.63
    expectClose(believed(three, { ...nothingKnown, complaint: 'bad', stage: 'early' }), [
      3 / 3.63,
      0.6 / 3.63,
      0.03 / 3.63,
    ]);
  });

  it('takes the largest odds over the stages of the complaint where the stage is unknown', () => {
    // 3 x 1, 8 x .3, 1 x .03: of 5.43
    expectClose(believed(three, { ...nothingKnown, complaint: 'bad' }), [3 / 5.43, 2.4 / 5.43, 0.03 / 5.43]);
  });

  it('is the odds alone where nobody can name the complaint', () => {
    expectClose(believed(three, { ...nothingKnown, stage: 'early' }), [3 / 6, 2 / 6, 1 / 6]);
  });

  it('is nothing for a cause that does not show at the stage, or that it is known not to be', () => {
    expectClose(believed(three, { ...nothingKnown, stage: 'late' }), [1 / 9, 8 / 9, 0]);
    expectClose(believed(three, { ...nothingKnown, stage: 'early', ruledOut: ['first'] }), [0, 2 / 3, 1 / 3]);
  });

  it('falls back to all alike when every cause is ruled out', () => {
    const all = { ...nothingKnown, ruledOut: ['first', 'second', 'third'] };
    expectClose(believed(three, all), [1 / 3, 1 / 3, 1 / 3]);
  });
});

describe('answers', () => {
  const shares = { a: 0.5, b: 0.3, c: 0.2 };
  const sets = (among: string[], stages?: string[]) => ({
    bad: { sets: [{ finding: 'look', among, ...(stages ? { stages } : {}) }] },
  });
  const withSets = (among: string[], stages?: string[]) =>
    sketch({
      causes: { one: { likely: { look: { a: 'often' } } }, other: { likely: { look: { c: 'often' } } } },
      findings: { look: { shares } },
      complaints: sets(among, stages),
    });

  it('count within the set that the complaint itself gives', () => {
    // one: a .70 b .18; other: a .3 x .5/.8 = .1875 b .1125. Among a and b: .70/.88 against .1875/.30 = .625.
    const one = 0.7 / 0.88;
    const trouble = { ...found(['look', 'a']), complaint: 'bad', stage: 'early' };
    expectClose(believed(withSets(['a', 'b']), trouble), [one / (one + 0.625), 0.625 / (one + 0.625)]);
  });

  it('say nothing when the complaint leaves one choice only', () => {
    expectClose(
      believed(withSets(['a']), { ...found(['look', 'a']), complaint: 'bad', stage: 'early' }),
      [0.5, 0.5],
    );
  });

  it('count in full where the set belongs to another stage', () => {
    // .70 against .1875
    const trouble = { ...found(['look', 'a']), complaint: 'bad', stage: 'early' };
    expectClose(believed(withSets(['a'], ['late']), trouble), [0.7 / 0.8875, 0.1875 / 0.8875]);
  });

  it('outside the set are believed by their plain chances', () => {
    // c: .12 against .70
    const trouble = { ...found(['look', 'c']), complaint: 'bad', stage: 'early' };
    expectClose(believed(withSets(['a', 'b']), trouble), [0.12 / 0.82, 0.7 / 0.82]);
  });

  it('that nobody has say nothing', () => {
    const trouble = { ...nothingKnown, passed: ['look'] };
    expectClose(believed(withSets(['a', 'b']), trouble), [0.5, 0.5]);
  });

  const grouped = sketch({
    causes: {
      one: { likely: { smell: { a: 'almost-always' }, taste: { a: 'almost-always' } } },
      other: { likely: { smell: { a: 'sometimes' }, taste: { a: 'often' } } },
    },
    findings: {
      smell: { shares: { a: 0.5, b: 0.5 } },
      taste: { shares: { a: 0.5, b: 0.5 } },
      look: { shares },
    },
    weighing: { groups: [['smell', 'taste']] },
  });

  it('of one group count by their square root from the second on', () => {
    // .95/.35 in full, then the root of .95/.70
    const odds = (0.95 / 0.35) * Math.sqrt(0.95 / 0.7);
    expectClose(believed(grouped, found(['smell', 'a'], ['look', 'a'], ['taste', 'a'])), [
      odds / (1 + odds),
      1 / (1 + odds),
    ]);
    // The other way round it is the smell that counts less.
    const turned = (0.95 / 0.7) * Math.sqrt(0.95 / 0.35);
    expect(believed(grouped, found(['taste', 'a'], ['smell', 'a']))[0]).toBeCloseTo(turned / (1 + turned), 6);
  });

  it('speak for a cause by their likelihood against the others together, the strongest first', () => {
    const [first, second] = evidenceFor(grouped, found(['taste', 'a'], ['smell', 'a']), 'one');
    expect(first?.finding).toBe('smell');
    // Group power .5 on .95/.35, then .95/.70 in full.
    expect(first?.weight).toBeCloseTo(0.5 * Math.log(0.95 / 0.35), 6);
    expect(second?.weight).toBeCloseTo(Math.log(0.95 / 0.7), 6);
  });
});

describe('on the real tables, whatever is answered', () => {
  const answers = fc.uniqueArray(
    fc
      .constantFrom(...real.findings)
      .chain(({ id, choices }) =>
        fc.constantFrom(...Object.keys(choices)).map((choice): Found => ({ finding: id, choice })),
      ),
    { selector: ({ finding }) => finding, maxLength: 20 },
  );
  const complaint = fc.option(fc.constantFrom(...real.complaints.map(({ id }) => id)), { nil: undefined });
  const stage = fc.option(fc.constantFrom(...real.weighing.stages.map(({ id }) => id)), { nil: undefined });

  it('the probabilities add up to 1 and none is negative', () => {
    const check = fc.property(answers, complaint, stage, (all, what, where) => {
      const now = beliefs(real, { found: all, passed: [], complaint: what, stage: where });
      expect(now.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
      for (const one of now) expect(one).toBeGreaterThanOrEqual(0);
    });
    fc.assert(check, { seed: 20260302, numRuns: 300 });
  });

  it('the order of answers makes no difference where no two are of one group', () => {
    const apart = (all: readonly Found[]) =>
      all.filter(({ finding }, index) =>
        real.weighing.groups.every(
          (group) =>
            !group.includes(finding) || all.findIndex((one) => group.includes(one.finding)) === index,
        ),
      );
    const check = fc.property(answers, complaint, fc.infiniteStream(fc.nat()), (all, what, keys) => {
      const chosen = apart(all);
      const shuffled = chosen
        .map((one) => ({ one, key: keys.next().value ?? 0 }))
        .sort((left, right) => left.key - right.key)
        .map(({ one }) => one);
      const inOrder = beliefs(real, { found: chosen, passed: [], complaint: what });
      expectClose(believed(real, { found: shuffled, passed: [], complaint: what }), Array.from(inOrder), 9);
    });
    fc.assert(check, { seed: 20260302, numRuns: 200 });
  });

  it('every chance lies between 0 and 1, and the choices of a check add up to 1 under each cause', () => {
    for (const rows of chancesOf(real).of)
      for (const row of rows) {
        expect(row.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9);
        for (const one of row) expect(one > 0 && one < 1).toBe(true);
      }
  });

  it.each(real.complaints.flatMap(({ id, sets = [] }) => sets.map((set) => ({ id, set }))))(
    '$id leaves $set.finding only what it says itself',
    ({ id, set }) => {
      const [finding] = real.findings.filter((one) => one.id === set.finding);
      if (!finding) throw new Error(`no check ${set.finding}`);
      const trouble = {
        ...nothingKnown,
        complaint: id,
        ...(set.stages?.[0] ? { stage: set.stages[0] } : {}),
      };
      expect(choicesLeft(real, trouble, finding)).toEqual(set.among);
      const [only, ...others] = set.among;
      if (only === undefined || others.length > 0) return;
      const after = { ...trouble, found: [{ finding: finding.id, choice: only }] };
      expectClose(believed(real, after), believed(real, trouble), 12);
    },
  );

  it('causes are ranked by probability, equal ones in the order of the rules', () => {
    const even = sketch({
      causes: { one: {}, two: {}, three: { odds: { early: 2, late: 2 } } },
      findings: {},
    });
    expect(ranked(even, beliefs(even, nothingKnown)).map(({ id }) => id)).toEqual(['three', 'one', 'two']);
  });
});
