import { type Condition, isLeaf, type Leaf, partsOf } from '../rulebook/condition.ts';
import { judge, type KnownFacts } from '../rulebook/three-valued.ts';

/** The comparisons that a verdict rests on: in an `any` that holds those that hold, in an `all` that fails those that fail. */
export function decisiveIn(condition: Condition, known: KnownFacts): Leaf[] {
  if (isLeaf(condition)) return [condition];
  const verdict = judge(condition, known);
  const parts = partsOf(condition);
  if ('not' in condition) return parts.flatMap((part) => decisiveIn(part, known));
  const restsOn = parts.filter((part) => judge(part, known) === verdict);
  return restsOn.flatMap((part) => decisiveIn(part, known));
}
