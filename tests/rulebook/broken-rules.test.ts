import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/rulebook/load-rules.ts';
import { RuleFileError } from '../../src/rulebook/rule-file-error.ts';
import { smallRules } from '../conversation/small-book.ts';

/** One mistake a person could make in the small house, and what the message must name. */
const broken: { mistake: string; file: string; change: [string, string]; says: string[] }[] = [
  {
    mistake: 'a field that does not exist',
    file: 'stages/warm.yaml',
    change: ['about: Slowly.', 'about: Slowly.\nvlaue: 3'],
    says: ['stages/warm.yaml:4', 'vlaue', 'is not a field that belongs here'],
  },
  {
    mistake: 'a missing source',
    file: 'stages/pour.yaml',
    change: [', source: common-practice }', ' }'],
    says: ['stages/pour.yaml:12', 'advice.0.source'],
  },
  {
    mistake: 'a source that is not in the list',
    file: 'stages/pour.yaml',
    change: ['source: common-practice', 'source: some-book'],
    says: ['stages/pour.yaml:12', 'some-book', 'sources.yaml'],
  },
  {
    mistake: 'a fact that nobody asks',
    file: 'stages/warm.yaml',
    change: [
      'when: { fact: heat, operator: greaterThan, value: { fact: limit.hot } }\n    signal',
      'when: { fact: heet, operator: greaterThan, value: 3 }\n    signal',
    ],
    says: ['stages/warm.yaml', '"heet" is no question, computed fact or limit'],
  },
  {
    mistake: 'a choice that the question does not offer',
    file: 'hazards/lid.yaml',
    change: [
      'safe-when: { fact: lid, operator: equal, value: shut }',
      'safe-when: { fact: lid, operator: equal, value: shutt }',
    ],
    says: ['hazards/lid.yaml', '"shutt" is no choice of "lid" (it has shut, open)'],
  },
  {
    mistake: 'an operator that does not exist',
    file: 'stages/warm.yaml',
    change: ['operator: lessThanInclusive', 'operator: atMost'],
    says: ['stages/warm.yaml:34', 'operator'],
  },
  {
    mistake: 'an empty group, which the engine would call true',
    file: 'stages/pour.yaml',
    change: ['when: { fact: cup, operator: notEqual, value: none }', 'when: { all: [] }'],
    says: ['stages/pour.yaml:12', 'advice.0.when'],
  },
  {
    mistake: 'the same question written twice',
    file: 'stages/pour.yaml',
    change: ['id: cup', 'id: heat'],
    says: ['stages/pour.yaml', 'the question "heat" is already written at stages/warm.yaml:'],
  },
  {
    mistake: 'a stage without a file',
    file: 'flow.yaml',
    change: ['[warm, pour]', '[warm, stir, pour]'],
    says: ['flow.yaml', '"stir"'],
  },
  {
    mistake: 'a way to a stage that does not exist',
    file: 'stages/warm.yaml',
    change: ['{ to: pour,', '{ to: poor,'],
    says: ['stages/warm.yaml', 'there is no stage "poor"'],
  },
  {
    mistake: 'a fact and a limit in different units',
    file: 'limits/kettle.yaml',
    change: ['unit: degC', 'unit: degF'],
    says: ['"heat" is in degC, "limit.hot" in degF'],
  },
  {
    mistake: 'a unit that nobody knows',
    file: 'limits/kettle.yaml',
    change: ['unit: degC', 'unit: degrees'],
    says: ['limits/kettle.yaml:2', 'limits.0.unit', 'is no unit that we know'],
  },
  {
    mistake: 'a formula that calls what is not allowed',
    file: 'stages/warm.yaml',
    change: ['formula: a / 2', "formula: 'config({a: 1})'"],
    says: ['stages/warm.yaml', 'the formula'],
  },
  {
    mistake: 'a formula with a name that its "with" lacks',
    file: 'stages/warm.yaml',
    change: ['formula: a / 2', 'formula: a / b'],
    says: ['uses "b", which its "with" does not name'],
  },
  {
    mistake: 'a calculation that does not exist',
    file: 'stages/warm.yaml',
    change: [
      "{ fact: half, about: Half of the water, unit: L, formula: a / 2, with: { a: amount }, source: common-practice, say: 'Half is {half}.' }",
      '{ calculation: halving, about: Half of the water, with: { a: amount }, gives: { half: half } }',
    ],
    says: ['there is no calculation "halving"'],
  },
  {
    mistake: 'YAML that does not parse',
    file: 'flow.yaml',
    change: ['[warm, pour]', '[warm, pour'],
    says: ['flow.yaml:1'],
  },
  {
    mistake: 'a file that belongs nowhere',
    file: 'words.yaml',
    change: ['words:', 'word:'],
    says: ['words.yaml:1', 'word'],
  },
];

describe('a broken rule file is refused, and the message names the place', () => {
  it.each(broken)('$mistake', ({ file, change: [from, to], says }) => {
    const files = smallRules.map((one) =>
      one.path === file ? { ...one, text: one.text.replace(from, to) } : one,
    );
    expect(files, 'the mistake was really made').not.toEqual(smallRules);
    const attempt = () => loadRules(files, '');
    expect(attempt).toThrow(RuleFileError);
    try {
      attempt();
    } catch (error) {
      for (const part of says) expect((error as Error).message).toContain(part);
    }
  });

  it('names every mistake at once, not only the first', () => {
    const files = smallRules.map((one) => ({
      ...one,
      text: one.text.replaceAll('source: common-practice', 'source: nobody'),
    }));
    expect(() => loadRules(files, '')).toThrow(/nobody[\s\S]*nobody[\s\S]*nobody/);
  });
});

describe('a hostile rule pack', () => {
  const hostile = [
    'config({number: "BigNumber"})',
    'import({})',
    'ones(9, 9)',
    'a b',
    'a; 2',
    'a = 3',
    '[1, 2]',
    '{x: 1}',
    '"text"',
    'f(x) = x',
    'a.constructor',
    'a!',
    'cos(a)',
    'a ? 1 : 2',
    'a > 1',
    '1:3',
    'a % 2',
    'evaluate("1")',
    '#',
    `${'a+'.repeat(300)}a`,
  ];
  it.each(hostile)('runs no code: %s', (formula) => {
    const files = smallRules.map((one) =>
      one.path === 'stages/warm.yaml'
        ? { ...one, text: one.text.replace('formula: a / 2', `formula: ${JSON.stringify(formula)}`) }
        : one,
    );
    expect(() => loadRules(files, '')).toThrow(RuleFileError);
  });
});
