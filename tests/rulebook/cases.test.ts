import { describe, expect, it } from 'vitest';
import { comparable } from '../../src/rulebook/comparable.ts';
import { evaluate } from '../../src/rulebook/evaluate.ts';
import { judge } from '../../src/rulebook/three-valued.ts';
import { book, cases, factsGiven } from './cases.ts';

const adviceStage = new Map(
  book.stages.flatMap((stage) =>
    stage.advice.map((advice) => [advice.id, { stage: stage.stage, advice }] as const),
  ),
);

describe.each([...new Set(cases.map((one) => one.file))])('%s', (file) => {
  it.each(cases.filter((one) => one.file === file))(
    '$rule $expect: $name',
    async ({ rule, given, expect: wanted }) => {
      const facts = factsGiven(book, given);
      const spoken = adviceStage.get(rule);
      if (spoken) {
        const verdict = judge(spoken.advice.when, comparable(book, facts, {}));
        expect({ true: 'fires', false: 'silent', unknown: 'undecided' }[verdict]).toBe(wanted);
        return;
      }
      const hazard = book.hazards.find((one) => one.id === rule);
      expect(hazard, `there is no rule ${rule}`).toBeDefined();
      const stage = hazard?.stages === 'any' ? 'rig' : (hazard?.stages[0] ?? '');
      const outcome = await evaluate(book, { stage, facts, figures: {}, held: [], explained: [] });
      const stops = outcome.unsafe.includes(rule);
      const known = comparable(book, facts, outcome.figures);
      const safe = hazard !== undefined && judge(hazard['safe-when'], known) === 'true';
      expect(stops ? 'stops' : safe ? 'safe' : 'undecided').toBe(wanted);
    },
  );
});

describe('every rule', () => {
  it.each([...adviceStage.keys()])('%s has a case in which it speaks and one in which it does not', (id) => {
    const found = cases.filter((one) => one.rule === id).map((one) => one.expect);
    expect(found).toContain('fires');
    expect(found.some((wanted) => wanted !== 'fires')).toBe(true);
  });

  it.each(book.hazards.map((hazard) => hazard.id))(
    'stop %s has a case that stops and one that is safe',
    (id) => {
      const found = cases.filter((one) => one.rule === id).map((one) => one.expect);
      expect(found).toEqual(expect.arrayContaining(['stops', 'safe']));
    },
  );
});
