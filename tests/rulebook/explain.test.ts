import { Engine, type TopLevelCondition } from 'json-rules-engine';
import { describe, expect, it } from 'vitest';
import { comparable } from '../../src/rulebook/comparable.ts';
import { factsOf, isLeaf, leavesOf, type Plain } from '../../src/rulebook/condition.ts';
import { evaluate } from '../../src/rulebook/evaluate.ts';
import { explainTrace, nameOfFact } from '../../src/rulebook/explain.ts';
import { adviceKey } from '../../src/rulebook/rule-keys.ts';
import type { Advice } from '../../src/rulebook/rule-schema.ts';
import { book, cases, factsGiven } from './cases.ts';

interface EngineNode {
  all?: EngineNode[];
  any?: EngineNode[];
  not?: EngineNode;
  fact?: string;
  operator?: string;
  result?: boolean;
}

function engineLeaves(node: EngineNode): EngineNode[] {
  if (node.fact) return [node];
  return [...(node.all ?? []), ...(node.any ?? []), ...(node.not ? [node.not] : [])].flatMap(engineLeaves);
}

/** What the engine itself says of each comparison; those it did not look at have no result. */
async function engineSays(
  advice: Advice,
  known: Readonly<Record<string, Plain | undefined>>,
): Promise<EngineNode[]> {
  const engine = new Engine([], { pathResolver: (value) => value });
  const top = (isLeaf(advice.when) ? { all: [advice.when] } : advice.when) as TopLevelCondition;
  engine.addRule({ name: advice.id, conditions: top, event: { type: 'fires' } });
  const facts: Record<string, Plain> = {};
  for (const fact of factsOf(advice.when)) facts[fact] = known[fact] ?? [];
  const run = await engine.run(facts);
  const [result] = [...run.results, ...run.failureResults];
  const conditions = result?.conditions as unknown as { toJSON(stringify: boolean): EngineNode };
  return engineLeaves(conditions.toJSON(false));
}

const advice = new Map(
  book.stages.flatMap((stage) => stage.advice.map((one) => [one.id, { stage: stage.stage, one }] as const)),
);
const firing = cases.filter((one) => one.expect === 'fires' && advice.has(one.rule));

describe('the explanation of an advice', () => {
  it.each(firing.map((one) => [one.rule, one.name, one] as const))(
    '%s names every fact it used: %s',
    async (rule, _name, one) => {
      const spoken = advice.get(rule);
      if (!spoken) throw new Error(rule);
      const facts = factsGiven(book, one.given);
      const outcome = await evaluate(book, {
        stage: spoken.stage,
        facts,
        figures: {},
        held: [],
        explained: [],
      });
      const traces = outcome.traces[adviceKey(rule)];
      // A case may give a computed fact directly; then the run works it out itself and may say otherwise.
      if (!traces) return;
      expect(traces.map((trace) => trace.fact)).toEqual(leavesOf(spoken.one.when).map((leaf) => leaf.fact));
      const figures = { ...facts.values, ...outcome.figures };
      const said = traces.map((trace) => explainTrace(book, trace, figures));
      for (const [index, trace] of traces.entries())
        expect(said[index]).toContain(nameOfFact(book, trace.fact));
      const known = comparable(book, facts, outcome.figures);
      for (const [index, leaf] of (await engineSays(spoken.one, known)).entries()) {
        const trace = traces[index];
        if (leaf.result === undefined || trace?.met === undefined) continue;
        expect(trace.met, `${leaf.fact} ${leaf.operator}`).toBe(leaf.result);
        expect(said[index]).toMatch(leaf.result ? /, met$/ : /, not met$/);
      }
    },
  );
});
