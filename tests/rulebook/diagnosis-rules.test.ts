import { describe, expect, it } from 'vitest';
import { loadRules } from '../../src/rulebook/load-rules.ts';
import { RuleFileError } from '../../src/rulebook/rule-file-error.ts';
import { smallRules } from '../conversation/small-book.ts';
import { kettleBook, kettleRules, kettleTrouble } from '../diagnosis/kettle-trouble.ts';

/** One mistake a person could make in a diagnosis file, and what the message must name. */
const broken: { mistake: string; change: [string, string]; says: string[] }[] = [
  {
    mistake: 'shares that do not add up to 1',
    change: ['share: 0.3 }, many', 'share: 0.4 }, many'],
    says: ['findings.0', 'its shares add up to 1.10, not to 1'],
  },
  {
    mistake: 'a likelihood for a check that does not exist',
    change: ['likely: { scale-look:', 'likely: { scale-peek:'],
    says: ['causes.2', 'there is no check "scale-peek"'],
  },
  {
    mistake: 'a likelihood for a choice that the check lacks',
    change: ['{ white: almost-always }', '{ whitish: almost-always }'],
    says: ['causes.2', '"whitish" is no choice of "scale-look"'],
  },
  {
    mistake: 'a likelihood word that nobody knows',
    change: ['{ few: rarely }', '{ few: seldom }'],
    says: ['causes.1.likely.leaves.few'],
  },
  {
    mistake: 'a complaint about a cause that does not exist',
    change: ['core: [few-leaves, cool-water]', 'core: [few-leaves, cool-water, old-leaves]'],
    says: ['complaints.0', 'there is no cause "old-leaves"'],
  },
  {
    mistake: 'a complaint that sets a check that does not exist',
    change: ['sets: [{ finding: sound,', 'sets: [{ finding: noise,'],
    says: ['complaints.1', 'there is no check "noise"'],
  },
  {
    mistake: 'a complaint that sets a choice that the check lacks',
    change: ['among: [loud, quiet, crackle]', 'among: [loud, silent]'],
    says: ['complaints.1', '"silent" is no choice of "sound"'],
  },
  {
    mistake: 'a set for a trouble stage that does not exist',
    change: ['among: [loud, quiet, crackle] }', 'among: [loud, quiet], stages: [boiling] }'],
    says: ['complaints.1', '"boiling" is no trouble stage'],
  },
  {
    mistake: 'a complaint at a trouble stage that does not exist',
    change: ['stages: [pouring]\n    core', 'stages: [pouring, drinking]\n    core'],
    says: ['complaints.0', '"drinking" is no trouble stage'],
  },
  {
    mistake: 'a cause that no complaint leads to',
    change: ['core: [few-leaves, cool-water]', 'core: [cool-water]'],
    says: ['causes.0', 'no complaint leads to it at a stage where it can show'],
  },
  {
    mistake: 'a cause that shows at none of the stages of its complaints',
    change: ['odds: { pouring: 4 }', 'odds: { warming: 4 }'],
    says: ['causes.0', 'no complaint leads to it at a stage where it can show'],
  },
  {
    mistake: 'two causes that no check tells apart',
    change: [
      'likely: { leaves: { few: rarely }, steam-look: { none: almost-always } }',
      'likely: { leaves: { few: almost-always }, steam-look: { plenty: often } }',
    ],
    says: ['causes.0', 'no check tells it from "cool-water"'],
  },
  {
    mistake: 'a risky check without a caution',
    change: ['caution: { signal: CAUTION, say: Keep your face off the steam. }\n    ', ''],
    says: ['findings.2', 'has a risk and no caution'],
  },
  {
    mistake: 'a gate that does not exist',
    change: ['gate: lid-off', 'gate: lid-up'],
    says: ['findings.2', 'there is no gate "lid-up"'],
  },
  {
    mistake: 'a gate that looks at a fact nobody knows',
    change: [
      'say: the lid is off }',
      'say: the lid is off, open: { fact: found.lid, operator: equal, value: off } }',
    ],
    says: ['gates.0', '"found.lid" is no question, computed fact or limit'],
  },
  {
    mistake: 'a log condition that looks at what only the diagnosis knows',
    change: [
      'log: { fact: steam, operator: equal, value: false }',
      'log: { fact: complaint, operator: equal, value: weak }',
    ],
    says: ['findings.1', '"complaint" is no question, computed fact or limit'],
  },
  {
    mistake: 'a check at a trouble stage that does not exist',
    change: ['where: [pouring]', 'where: [pouring, drinking]'],
    says: ['findings.0', '"drinking" is no trouble stage'],
  },
  {
    mistake: 'odds at a trouble stage that does not exist',
    change: ['odds: { pouring: 4 }', 'odds: { pouring: 4, drinking: 1 }'],
    says: ['causes.0', '"drinking" is no trouble stage'],
  },
  {
    mistake: 'a trouble stage that covers no stage of the talk',
    change: ['talk: [pour] }', 'talk: [spill] }'],
    says: ['weighing', 'there is no stage "spill" in flow.yaml'],
  },
  {
    mistake: 'a cure at a stage that does not exist',
    change: ['back-to: warm', 'back-to: boil'],
    says: ['causes.1', 'there is no stage "boil" in flow.yaml'],
  },
  {
    mistake: 'an answer that is an alarm nobody knows',
    change: ['share: 0.2, alarm: fire }', 'share: 0.2, alarm: smoke }'],
    says: ['findings.3', '"smoke" is no choice of the alarm'],
  },
  {
    mistake: 'a complaint that is an alarm nobody knows',
    change: ['\n    alarm: fire', '\n    alarm: smoke'],
    says: ['complaints.2', '"smoke" is no choice of the alarm'],
  },
  {
    mistake: 'a source that is not in the list',
    change: ['back-to: pour\n    source: common-practice', 'back-to: pour\n    source: some-book'],
    says: ['causes.0', 'the source "some-book" is not in sources.yaml'],
  },
  {
    mistake: 'a dose that needs a fact nobody knows',
    change: ['needs: [half]', 'needs: [third]'],
    says: ['causes.1', '"third" is no fact'],
  },
  {
    mistake: 'one phrase for two choices of a check',
    change: ['many: { say: a spoonful,', 'many: { say: a spoonful, also: [A pinch],'],
    says: ['findings.0', '"a pinch" stands for more than one of its choices'],
  },
  {
    mistake: 'a band that cannot be read',
    change: ["few: '< 2'", 'few: under 2'],
    says: ['findings.0.bands.of.few', 'a band is written like'],
  },
  {
    mistake: 'a band in a unit that nobody knows',
    change: ['unit: g,', 'unit: pinches,'],
    says: ['findings.0.bands.unit', 'is no unit that we know'],
  },
  {
    mistake: 'a band for no choice',
    change: ["many: '>= 2'", "lots: '>= 2'"],
    says: ['findings.0', '"lots" has a band and is no choice'],
  },
  {
    mistake: 'a group of a check that does not exist',
    change: ['groups: [[leaves, steam-look]]', 'groups: [[leaves, steam-see]]'],
    says: ['weighing', 'there is no check "steam-see" to group'],
  },
  {
    mistake: 'the same cause written twice',
    change: ['id: scale\n', 'id: cool-water\n'],
    says: ['the cause "cool-water" is already written at diagnosis/kettle.yaml:'],
  },
  {
    mistake: 'the same check written twice',
    change: ['id: sound\n', 'id: leaves\n'],
    says: ['the check "leaves" is already written at diagnosis/kettle.yaml:'],
  },
  {
    mistake: 'a field that does not exist',
    change: ['    prevent: Use soft water.', '    prevent: Use soft water.\n    remedy: None.'],
    says: ['causes.2', 'remedy', 'is not a field that belongs here'],
  },
  {
    mistake: 'causes without a weighing',
    change: [kettleTrouble.text.slice(kettleTrouble.text.indexOf('weighing:')), ''],
    says: ['causes need a "weighing" part and a "talk" part'],
  },
];

function withChange([from, to]: [string, string]) {
  return kettleRules.map((one) =>
    one === kettleTrouble ? { ...one, text: one.text.replace(from, to) } : one,
  );
}

describe('a broken diagnosis file is refused, and the message names the place', () => {
  it.each(broken)('$mistake', ({ change, says }) => {
    const files = withChange(change);
    expect(files, 'the mistake was really made').not.toEqual(kettleRules);
    let message = '';
    try {
      loadRules(files, '');
    } catch (error) {
      if (!(error instanceof RuleFileError)) throw error;
      message = error.message;
    }
    for (const part of says) expect(message).toContain(part);
    expect(message).toContain(
      says[0] === 'causes need a "weighing" part and a "talk" part' ? 'diagnosis' : 'kettle.yaml:',
    );
  });

  it('names every mistake at once', () => {
    const twice = kettleRules.map((one) =>
      one === kettleTrouble
        ? {
            ...one,
            text: one.text.replace('gate: lid-off', 'gate: lid-up').replace('back-to: warm', 'back-to: boil'),
          }
        : one,
    );
    expect(() => loadRules(twice, '')).toThrow(/"boil"[\s\S]*"lid-up"|"lid-up"[\s\S]*"boil"/);
  });
});

describe('a sound diagnosis file', () => {
  it('gives its checks and its own questions to the talk', () => {
    const asked = Object.keys(kettleBook.questions);
    expect(asked).toEqual(
      expect.arrayContaining(['check:leaves', 'check:sound', 'trouble:words', 'trouble:next']),
    );
  });

  it('lets a check behind a gate be answered with "does not apply", and no other', () => {
    const choices = (id: string) => {
      const answer = kettleBook.questions[id]?.answer;
      return answer && 'choice' in answer ? Object.keys(answer.choice) : [];
    };
    expect(choices('check:scale-look')).toEqual(['white', 'bright', 'does-not-apply']);
    expect(choices('check:sound')).not.toContain('does-not-apply');
  });

  it('is not needed: a house without one loads', () => {
    expect(loadRules(smallRules, '').book.diagnosis).toBeUndefined();
  });

  it('may be spread over many files', () => {
    const at = kettleTrouble.text.indexOf('complaints:');
    const parts = [kettleTrouble.text.slice(0, at), kettleTrouble.text.slice(at)];
    const files = parts.map((text, index) => ({ path: `diagnosis/part-${index}.yaml`, text }));
    expect(loadRules([...smallRules, ...files], '').book.diagnosis).toEqual(kettleBook.diagnosis);
  });
});
