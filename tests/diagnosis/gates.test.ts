import { describe, expect, it } from 'vitest';
import { gateFacts, openGates } from '../../src/diagnosis/gates.ts';
import type { Trouble } from '../../src/diagnosis/trouble.ts';
import { weigh } from '../../src/diagnosis/verdict.ts';
import type { Gate } from '../../src/rulebook/diagnosis-schema.ts';
import type { KnownFacts } from '../../src/rulebook/three-valued.ts';
import { book } from '../rulebook/cases.ts';
import { sketch } from './small-diagnosis.ts';

const trouble: Trouble = {
  complaint: 'bad',
  stage: 'early',
  found: [{ finding: 'look', choice: 'yes' }],
  passed: [],
};
const isBad = { fact: 'complaint', operator: 'equal', value: 'bad' } as const;
const isLate = { fact: 'trouble-stage', operator: 'equal', value: 'late' } as const;
const isWet = { fact: 'oil-look', operator: 'equal', value: 'wet' } as const;

function isOpen(
  gate: Partial<Gate>,
  facts: KnownFacts = {},
  denied: string[] = [],
  about = trouble,
): boolean {
  const diagnosis = sketch({
    causes: { one: {} },
    findings: {},
    gates: [{ id: 'door', say: 'it is open', ...gate }],
  });
  return openGates(diagnosis, gateFacts(facts, about), denied).has('door');
}

describe('the gate of a check', () => {
  it('with `open` is shut until that is known to hold', () => {
    expect(isOpen({ open: isWet })).toBe(false);
    expect(isOpen({ open: isWet }, { 'oil-look': 'dry' })).toBe(false);
    expect(isOpen({ open: isWet }, { 'oil-look': 'wet' })).toBe(true);
  });

  it('with `shut` is open until that is known to hold', () => {
    expect(isOpen({ shut: isWet })).toBe(true);
    expect(isOpen({ shut: isWet }, { 'oil-look': 'dry' })).toBe(true);
    expect(isOpen({ shut: isWet }, { 'oil-look': 'wet' })).toBe(false);
  });

  it('with neither is open until the maker says that it does not apply', () => {
    expect(isOpen({})).toBe(true);
    expect(isOpen({}, {}, ['door'])).toBe(false);
    expect(isOpen({ open: isBad }, {}, ['door'])).toBe(false);
  });

  it('may look at the complaint, the stage and what was found', () => {
    expect(isOpen({ open: isBad })).toBe(true);
    expect(isOpen({ open: isLate })).toBe(false);
    expect(isOpen({ open: { fact: 'found.look', operator: 'equal', value: 'yes' } })).toBe(true);
    expect(
      isOpen({ open: { fact: 'found.look', operator: 'equal', value: 'yes' } }, {}, [], {
        found: [],
        passed: [],
      }),
    ).toBe(false);
  });

  it('keeps the facts of the batch as they are', () => {
    const facts = { 'oil-look': 'wet' };
    gateFacts(facts, trouble);
    expect(facts).toEqual({ 'oil-look': 'wet' });
  });
});

describe('the real gates', () => {
  const { diagnosis } = book;
  if (!diagnosis) throw new Error('the rules have no diagnosis');
  const open = (about: Trouble, facts: KnownFacts = {}) => openGates(diagnosis, gateFacts(facts, about), []);
  const at = (complaint: string, stage: string, ...found: [string, string][]): Trouble => ({
    complaint,
    stage,
    found: found.map(([finding, choice]) => ({ finding, choice })),
    passed: [],
  });

  // Facts of the trade behind each line: common practice, no source.
  it.each([
    ['at-dewatering-tank', at('wont-dry', 'dewater'), {}, true],
    ['at-dewatering-tank', at('wont-dry', 'finish'), {}, false],
    ['at-dewatering-tank', at('foam-heating', 'dewater'), { 'oil-over': 'in-reactor' }, false],
    ['drop-out-left', at('conv-dropout', 'react'), {}, false],
    ['drop-out-left', at('conv-dropout', 'react', ['conv-test', 'trace']), {}, true],
    ['drop-out-left', at('conv-dropout', 'react', ['conv-test', 'clear']), {}, false],
    ['batch-failed', at('no-split', 'settle'), {}, true],
    ['batch-failed', at('cloudy-fuel', 'finish'), {}, false],
    ['reagents-suspected', at('no-split', 'settle'), {}, false],
    ['reagents-suspected', at('no-split', 'settle', ['hydroxide-state', 'clumped']), {}, true],
    ['reagents-suspected', at('cloudy-fuel', 'finish', ['hydroxide-state', 'clumped']), {}, false],
    ['emulsion-there', at('emulsion', 'wash-water'), {}, true],
    ['emulsion-there', at('heavy-soap', 'wash-water'), {}, false],
    ['fuel-cloudy', at('cloudy-fuel', 'store'), {}, true],
    ['fuel-cloudy', at('soft-hoses', 'store'), {}, false],
    ['in-use', at('filter-clog', 'use'), {}, true],
    ['in-use', at('filter-clog', 'store'), {}, false],
    ['soap-passes-column', at('drywash-soap', 'wash-dry'), {}, false],
    ['soap-passes-column', at('drywash-soap', 'wash-dry'), { 'asked.dry-medium': false }, true],
    [
      'soap-passes-column',
      at('drywash-soap', 'wash-dry'),
      { 'asked.dry-medium': true, 'dry-medium': 'powder' },
      false,
    ],
  ] as [string, Trouble, KnownFacts, boolean][])('%s (%j, %j): %s', (gate, about, facts, isSo) => {
    expect(open(about, facts).has(gate)).toBe(isSo);
  });

  it('no check behind a shut gate is offered, and one that is denied is offered no more', () => {
    const first = weigh(diagnosis, at('drywash-soap', 'wash-dry'), {}, []).next;
    const gate = diagnosis.findings.find(({ id }) => id === first?.finding)?.gate;
    expect(gate).toBeDefined();
    const denied = weigh(diagnosis, at('drywash-soap', 'wash-dry'), {}, [gate ?? '']).next;
    expect(diagnosis.findings.find(({ id }) => id === denied?.finding)?.gate).not.toBe(gate);
  });
});
