import { describe, expect, it } from 'vitest';
import { findingsInLog } from '../../src/diagnosis/from-log.ts';
import type { Trouble } from '../../src/diagnosis/trouble.ts';
import { stagesAfter } from '../../src/rulebook/book.ts';
import type { KnownFacts } from '../../src/rulebook/three-valued.ts';
import { book } from '../rulebook/cases.ts';
import { sketch } from './small-diagnosis.ts';

const shares = { low: 0.5, high: 0.5 };
const start: Trouble = { complaint: 'bad', stage: 'early', found: [], passed: [] };
const small = sketch({
  causes: { one: {} },
  findings: {
    level: {
      shares,
      log: {
        high: { fact: 'gauge', operator: 'greaterThan', value: 10 },
        low: { fact: 'gauge', operator: 'lessThanInclusive', value: 10 },
      },
    },
    look: { shares },
    again: { shares, now: true },
    said: { shares },
  },
  complaints: { bad: { sets: [{ finding: 'said', among: ['high'] }] } },
});

const known = (facts: KnownFacts) => findingsInLog(small, facts, start, []);

describe('what the log already says', () => {
  it('is a choice whose condition the facts of the batch meet', () => {
    expect(known({ gauge: 12 })).toEqual([{ finding: 'level', choice: 'high' }]);
    expect(known({ gauge: 10 })).toEqual([{ finding: 'level', choice: 'low' }]);
  });

  it('or the answer to a question of the same name', () => {
    expect(known({ look: 'low' })).toEqual([{ finding: 'look', choice: 'low' }]);
  });

  it('is nothing where the log has no answer, or one that is no choice of the check', () => {
    expect(known({})).toEqual([]);
    expect(known({ look: 'sideways' })).toEqual([]);
    expect(known({ look: 3 })).toEqual([]);
    expect(known({ look: 'toString' })).toEqual([]);
  });

  it('does not answer a check that has to be made anew', () => {
    expect(known({ again: 'low' })).toEqual([]);
  });

  it('is left out where the complaint says otherwise: what fails now counts, whatever held then', () => {
    expect(known({ said: 'low' })).toEqual([]);
    expect(known({ said: 'high' })).toEqual([{ finding: 'said', choice: 'high' }]);
    expect(findingsInLog(small, { said: 'low' }, { found: [], passed: [] }, [])).toEqual([
      { finding: 'said', choice: 'low' },
    ]);
  });
});

describe('on the real rules', () => {
  const { diagnosis } = book;
  if (!diagnosis) throw new Error('the rules have no diagnosis');

  it('the talk and the checks share names only where their answers are the same', () => {
    for (const { id, choices } of diagnosis.findings) {
      const answer = book.questions[id]?.answer;
      if (!answer || !('choice' in answer) || diagnosis.findings.find((one) => one.id === id)?.now) continue;
      const shared = Object.keys(answer.choice).filter((choice) => Object.hasOwn(choices, choice));
      expect(shared.length, `${id} of the talk and ${id} of the diagnosis`).toBeGreaterThan(0);
    }
  });

  it('a clear conversion test in the log does not answer for oil that falls out now', () => {
    const facts = { 'conv-test': 'clear' };
    const at = (complaint: string) =>
      findingsInLog(diagnosis, facts, { complaint, found: [], passed: [] }, []);
    expect(at('conv-dropout').map(({ finding }) => finding)).not.toContain('conv-test');
    expect(at('heavy-soap')).toContainEqual({ finding: 'conv-test', choice: 'clear' });
  });

  it('the log of a batch says nothing of fuel that is further on than the batch', () => {
    const facts = { 'conv-test': 'clear' };
    const at = (stage: string, talk: string) =>
      findingsInLog(diagnosis, facts, { stage, found: [], passed: [] }, stagesAfter(book, talk)).length;
    expect([at('use', 'settle'), at('store', 'settle'), at('wash-dry', 'settle')]).toEqual([0, 0, 0]);
    expect([
      at('settle', 'settle'),
      at('react', 'settle'),
      at('wash-dry', 'wash'),
      at('use', 'close'),
    ]).toEqual([1, 1, 1, 1]);
  });

  it('where nobody knows the stage, a complaint that only shows further on is of another batch too', () => {
    const facts = { 'conv-test': 'clear' };
    const at = (complaint: string, talk: string) =>
      findingsInLog(diagnosis, facts, { complaint, found: [], passed: [] }, stagesAfter(book, talk)).length;
    expect([at('cold-gel', 'settle'), at('cold-gel', 'store')]).toEqual([0, 1]);
  });
});
