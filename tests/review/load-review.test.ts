import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/rulebook/load-rules.ts';
import { smallRules } from '../conversation/small-book.ts';

const facts = `facts:
  - { name: boils, about: Whether the kettle ever boiled }
  - { name: hottest, about: The hottest reading, unit: degC }
`;

function check(changes: Record<string, string> = {}): string {
  const fields = {
    id: 'K1',
    name: 'kettle-boiled',
    signal: 'WARNING',
    when: '{ fact: review.boils, operator: equal, value: true }',
    say: 'It boiled at {review.hottest}.',
    because: 'Boiled water is too hot to pour.',
    source: 'common-practice',
    around: '[alarm]',
    ...changes,
  };
  const lines = Object.entries(fields).map(([key, value]) => `${key}: ${value}`);
  return `checks:\n  - ${lines.join('\n    ')}\n${facts}`;
}

const load = (text: string, path = 'review/kettle.yaml') =>
  loadRules([...smallRules, { path, text }], 'hash').book;

describe('review checks in a rule file', () => {
  it('are read into the book', () => {
    expect(load(check()).review.map(({ id }) => id)).toEqual(['K1']);
  });

  it('are none where the rules have none', () => {
    expect(loadRules(smallRules, 'hash').book.review).toEqual([]);
  });

  it('may look at stages and at whether a question was asked', () => {
    const when =
      '{ all: [{ fact: visited.pour, operator: equal, value: true }, { fact: asked.alarm, operator: equal, value: false }] }';
    expect(load(check({ when })).review).toHaveLength(1);
  });

  it.each([
    [
      'an unknown review fact',
      { when: '{ fact: review.sings, operator: equal, value: true }' },
      /"review.sings" is no/,
    ],
    [
      'an unknown stage',
      { when: '{ fact: visited.fry, operator: equal, value: true }' },
      /"visited.fry" is no/,
    ],
    ['an unknown fact in its words', { say: 'It was {review.loud}.' }, /"review.loud" is no/],
    ['an unknown source', { source: 'hearsay' }, /"hearsay" is not in sources.yaml/],
    ['an unknown question around it', { around: '[whistle]' }, /no question "whistle"/],
    [
      'an unknown fact where it applies',
      { applies: '{ fact: whistle, operator: equal, value: 1 }' },
      /"whistle" is no/,
    ],
    [
      'a choice that is not offered',
      { when: '{ fact: alarm, operator: equal, value: flood }' },
      /"flood" is no choice/,
    ],
    [
      'another unit',
      { when: '{ fact: review.hottest, operator: greaterThan, value: { fact: limit.much } }' },
      /is in degC, "limit.much" in L/,
    ],
    ['no number', { when: '{ fact: review.boils, operator: greaterThan, value: 3 }' }, /is no number/],
    ['a word that is no signal', { signal: 'ALARM' }, /signal/],
    ['a field that does not belong', { colour: 'red' }, /colour/],
    ['fix: false', { fix: 'false' }, /fix/],
  ])('are refused with %s, and the line is named', (_what, changes, says) => {
    expect(() => load(check(changes as unknown as Record<string, string>))).toThrow(says);
    expect(() => load(check(changes as unknown as Record<string, string>))).toThrow(
      /review\/kettle\.yaml:\d+/,
    );
  });

  it('are refused when two have one id', () => {
    const twice = [
      ...smallRules,
      { path: 'review/a.yaml', text: check() },
      { path: 'review/b.yaml', text: check().split('facts:')[0] ?? '' },
    ];
    expect(() => loadRules(twice, 'hash')).toThrow(/review check "K1" is already written at review\/a.yaml/);
  });
});
