import { type Condition, leavesOf } from './condition.ts';
import type { Trace } from './evaluation.ts';
import { judge, type KnownFacts } from './three-valued.ts';

/** Each comparison of a condition with the facts that it was judged on. */
export function traceOf(condition: Condition, known: KnownFacts): Trace[] {
  return leavesOf(condition).map((leaf) => {
    const trace: Trace = { fact: leaf.fact, operator: leaf.operator, value: leaf.value };
    const was = known[leaf.fact];
    if (was !== undefined) trace.was = was;
    if (typeof leaf.value === 'object' && !Array.isArray(leaf.value)) {
      const against = known[leaf.value.fact];
      if (against !== undefined) trace.against = against;
    }
    const verdict = judge(leaf, known);
    if (verdict !== 'unknown') trace.met = verdict === 'true';
    return trace;
  });
}
