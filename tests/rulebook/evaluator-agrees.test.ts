import fc from 'fast-check';
import { Engine, type TopLevelCondition } from 'json-rules-engine';
import { describe, expect, it } from 'vitest';
import { type Condition, operators, type Plain } from '../../src/rulebook/condition.ts';
import { judge, stillMatters } from '../../src/rulebook/three-valued.ts';

const ordered = ['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive'] as const;
const numbers = ['n1', 'n2'];
const words = ['w1', 'w2'];
const lists = ['l1'];
const word = fc.constantFrom('a', 'b', 'c');

const leaf: fc.Arbitrary<Condition> = fc.oneof(
  fc.record({
    fact: fc.constantFrom(...numbers),
    operator: fc.constantFrom(...ordered),
    value: fc.oneof(fc.integer({ min: -2, max: 2 }), fc.constantFrom({ fact: 'n1' }, { fact: 'n2' })),
  }),
  fc.record({ fact: fc.constantFrom(...words), operator: fc.constantFrom('equal', 'notEqual'), value: word }),
  fc.record({
    fact: fc.constantFrom(...words),
    operator: fc.constantFrom('in', 'notIn'),
    value: fc.array(word, { minLength: 1 }),
  }),
  fc.record({
    fact: fc.constantFrom(...lists),
    operator: fc.constantFrom('contains', 'doesNotContain'),
    value: word,
  }),
) as fc.Arbitrary<Condition>;

const { tree } = fc.letrec<{ tree: Condition }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 3 },
    leaf,
    fc.record({ all: fc.array(tie('tree'), { minLength: 1, maxLength: 3 }) }),
    fc.record({ any: fc.array(tie('tree'), { minLength: 1, maxLength: 3 }) }),
    fc.record({ not: tie('tree') }),
  ) as fc.Arbitrary<Condition>,
}));

const fullFacts = fc.record({
  n1: fc.integer({ min: -2, max: 2 }),
  n2: fc.integer({ min: -2, max: 2 }),
  w1: word,
  w2: word,
  l1: fc.array(word),
});

async function askEngine(condition: Condition, facts: Record<string, Plain>): Promise<boolean> {
  const engine = new Engine();
  engine.addRule({ conditions: { all: [condition] } as TopLevelCondition, event: { type: 'met' } });
  return (await engine.run(facts)).events.length > 0;
}

const seed = { seed: 20260302 };

describe('the three-valued evaluator', () => {
  it('says what json-rules-engine says whenever every fact is known', async () => {
    const check = fc.asyncProperty(tree, fullFacts, async (condition, facts) => {
      expect(judge(condition, facts)).toBe(String(await askEngine(condition, facts)));
    });
    await fc.assert(check, { ...seed, numRuns: 400 });
  });

  it('decides on part of the facts only what the rest cannot change', () => {
    const check = fc.property(
      tree,
      fullFacts,
      fc.subarray(['n1', 'n2', 'w1', 'w2', 'l1']),
      (condition, facts, hidden) => {
        const part = Object.fromEntries(Object.entries(facts).filter(([id]) => !hidden.includes(id)));
        const verdict = judge(condition, part);
        if (verdict !== 'unknown') expect(judge(condition, facts)).toBe(verdict);
        else expect(stillMatters(condition, part).length).toBeGreaterThan(0);
      },
    );
    fc.assert(check, { ...seed, numRuns: 1000 });
  });

  it('knows every operator that a rule file may use', () => {
    for (const operator of operators) {
      const condition = {
        fact: 'x',
        operator,
        value: ['in', 'notIn'].includes(operator) ? ['a'] : 'a',
      } as Condition;
      expect(judge(condition, {})).toBe('unknown');
      expect(judge(condition, { x: 'a' })).not.toBe('unknown');
    }
  });
});
