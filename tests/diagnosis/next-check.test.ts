import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beliefs } from '../../src/diagnosis/beliefs.ts';
import { costOf, expectedGain, possibleChecks, rankChecks } from '../../src/diagnosis/next-check.ts';
import { findingOf, type Trouble } from '../../src/diagnosis/trouble.ts';
import { difference, weigh } from '../../src/diagnosis/verdict.ts';
import { book } from '../rulebook/cases.ts';
import { type Sketch, sketch } from './small-diagnosis.ts';

const start: Trouble = { found: [], passed: [] };
const none: ReadonlySet<string> = new Set();
const half = { yes: 0.5, no: 0.5 };

/** Two causes, alike at first; `words` are what almost-always and rarely stand for. */
function twoCauses(findings: Sketch['findings'], telling: readonly string[], high = 0.95, low = 0.05) {
  const likely = (word: 'almost-always' | 'rarely') =>
    Object.fromEntries(telling.map((id) => [id, { yes: word }]));
  return sketch({
    causes: { one: { likely: likely('almost-always') }, other: { likely: likely('rarely') } },
    findings,
    weighing: { words: { 'almost-always': high, often: 0.7, sometimes: 0.35, rarely: low } },
  });
}

function gainOf(diagnosis: ReturnType<typeof sketch>, trouble: Trouble, finding: string): number {
  return expectedGain(diagnosis, trouble, beliefs(diagnosis, trouble), finding);
}

function order(diagnosis: ReturnType<typeof sketch>, trouble: Trouble = start): string[] {
  return rankChecks(diagnosis, trouble, beliefs(diagnosis, trouble), none).map(({ finding }) => finding);
}

describe('what a check is expected to bring', () => {
  it('comes to ln 2, the entropy of a fair coin, where the answer all but settles two even causes', () => {
    const even = twoCauses({ look: { shares: half } }, ['look'], 1 - 1e-9, 1e-9);
    const sure = { ...even, weighing: { ...even.weighing, most: 1 - 1e-9 } };
    expect(gainOf(sure, start, 'look')).toBeCloseTo(Math.LN2, 6);
  });

  it('is the fall of the entropy on average over the answers', () => {
    // Either answer leaves .95 against .05: ln 2 - (-.95 ln .95 - .05 ln .05) = .6931 - .1985
    expect(gainOf(twoCauses({ look: { shares: half } }, ['look']), start, 'look')).toBeCloseTo(0.4946, 4);
  });

  it('is nothing where the causes make the same of the check', () => {
    expect(gainOf(twoCauses({ look: { shares: half } }, []), start, 'look')).toBeCloseTo(0, 12);
  });

  it('is less for a check that says in part what an earlier one of its group said', () => {
    const alike = twoCauses({ smell: { shares: half }, taste: { shares: half } }, ['smell', 'taste']);
    const trouble = { ...start, found: [{ finding: 'smell', choice: 'yes' }] };
    const grouped = { ...alike, weighing: { ...alike.weighing, groups: [['smell', 'taste']] } };
    expect(gainOf(grouped, trouble, 'taste')).toBeLessThan(gainOf(alike, trouble, 'taste'));
  });

  it('is never negative on the real tables, for checks that repeat no earlier one', () => {
    const { diagnosis } = book;
    if (!diagnosis) throw new Error('the rules have no diagnosis');
    const answers = fc.uniqueArray(
      fc
        .constantFrom(...diagnosis.findings)
        .chain(({ id, choices }) =>
          fc.constantFrom(...Object.keys(choices)).map((choice) => ({ finding: id, choice })),
        ),
      { selector: ({ finding }) => finding, maxLength: 6 },
    );
    const complaint = fc.constantFrom(...diagnosis.complaints.map(({ id }) => id));
    const check = fc.property(answers, complaint, (found, what) => {
      const trouble: Trouble = { found, passed: [], complaint: what };
      const now = beliefs(diagnosis, trouble);
      const before = found.map(({ finding }) => finding);
      const repeats = (id: string) =>
        diagnosis.weighing.groups.some(
          (group) => group.includes(id) && before.some((one) => group.includes(one)),
        );
      for (const { id } of diagnosis.findings.filter((one) => !before.includes(one.id) && !repeats(one.id)))
        expect(expectedGain(diagnosis, trouble, now, id)).toBeGreaterThan(-1e-9);
    });
    fc.assert(check, { seed: 20260302, numRuns: 60 });
  });
});

describe('which check comes next', () => {
  it('counts the asking, an hour, five dollars and the risk about alike', () => {
    const dear = sketch({
      causes: { one: {} },
      findings: { look: { shares: half, minutes: 30, money: 2.5, risk: 'much' } },
    });
    // 1 + 30/60 + 2.5/5 + .75
    expect(costOf(dear, findingOf(dear, 'look'))).toBeCloseTo(2.75, 12);
  });

  it('is the one with the most gain for its cost', () => {
    const findings = { slow: { shares: half, minutes: 240 }, quick: { shares: half, minutes: 3 } };
    expect(order(twoCauses(findings, ['slow', 'quick']))).toEqual(['quick', 'slow']);
    // A free look that tells nothing loses against a slow check that tells much.
    expect(order(twoCauses(findings, ['slow']))).toEqual(['slow', 'quick']);
  });

  it('is of equals the cheaper one, then the safer one', () => {
    const idle = {
      dear: { shares: half, minutes: 60 },
      risky: { shares: half, minutes: 15, risk: 'some' as const },
      // As dear as the risky one in all: a quarter of an hour more instead of the risk.
      safe: { shares: half, minutes: 30 },
    };
    expect(order(twoCauses(idle, []))).toEqual(['safe', 'risky', 'dear']);
  });

  it('is none that was answered, passed over, made elsewhere, behind a shut gate, or settled by the complaint', () => {
    const diagnosis = sketch({
      causes: { one: {}, other: {} },
      findings: {
        answered: { shares: half },
        passed: { shares: half },
        elsewhere: { shares: half, where: ['late'] },
        gated: { shares: half, gate: 'door' },
        said: { shares: half },
        left: { shares: half },
      },
      complaints: { bad: { sets: [{ finding: 'said', among: ['yes'] }] } },
      gates: [{ id: 'door', say: 'the door is open' }],
    });
    const trouble: Trouble = {
      complaint: 'bad',
      found: [{ finding: 'answered', choice: 'yes' }],
      passed: ['passed'],
    };
    expect(possibleChecks(diagnosis, trouble, none).map(({ id }) => id)).toEqual(['left']);
    const open = possibleChecks(diagnosis, trouble, new Set(['door']));
    expect(open.map(({ id }) => id)).toEqual(['gated', 'left']);
  });
});

describe('the verdict', () => {
  const telling = ['a', 'b', 'c', 'd', 'e', 'f'];
  const findings = Object.fromEntries(telling.map((id) => [id, { shares: half }]));
  const found = (ids: readonly string[], choice = 'yes') => ids.map((finding) => ({ finding, choice }));

  it('is settled from .85 on, and then nothing more is asked', () => {
    const sharp = twoCauses(findings, telling);
    const before = weigh(sharp, start, {}, []);
    expect([before.settled, before.next?.finding]).toEqual([false, 'a']);
    const after = weigh(sharp, { ...start, found: found(['a']) }, {}, []);
    expect(after.causes[0]).toEqual({ id: 'one', probability: expect.closeTo(0.95, 6) });
    expect([after.settled, after.next]).toEqual([true, undefined]);
  });

  it('asks nothing more when no check is worth it, though nothing is settled', () => {
    // .52 against .48 brings .0008 nat, less than the .05 that a check must bring.
    const dull = twoCauses({ a: { shares: half } }, ['a'], 0.52, 0.48);
    const verdict = weigh(dull, start, {}, []);
    expect([verdict.settled, verdict.next, verdict.apart]).toEqual([false, undefined, undefined]);
  });

  it('says that it may be two causes when the best is under .5 after five answers', () => {
    const idle = sketch({ causes: { one: {}, two: {}, three: {} }, findings });
    const answered = (count: number) =>
      weigh(idle, { ...start, found: found(telling.slice(0, count)) }, {}, []);
    expect([answered(4).two, answered(5).two]).toEqual([false, true]);
    const pair = sketch({ causes: { one: {}, two: {} }, findings });
    expect(weigh(pair, { ...start, found: found(telling.slice(0, 5)) }, {}, []).two).toBe(false);
  });

  it('never comes back to a cause that was ruled out', () => {
    const verdict = weigh(
      twoCauses(findings, telling),
      { ...start, found: found(['a']), ruledOut: ['one'] },
      {},
      [],
    );
    expect(verdict.causes).toEqual([
      { id: 'other', probability: 1 },
      { id: 'one', probability: 0 },
    ]);
  });

  it('names the check that tells the first two apart for the least cost', () => {
    const diagnosis = twoCauses({ ...findings, dear: { shares: half, minutes: 600 } }, ['dear', 'c']);
    expect(weigh(diagnosis, start, {}, []).apart).toBe('c');
    // Symmetric Kullback-Leibler divergence: 2 x (.95 - .05) x ln(.95/.05)
    expect(difference(diagnosis, start, 'c', ['one', 'other'])).toBeCloseTo(1.8 * Math.log(19), 6);
  });
});
