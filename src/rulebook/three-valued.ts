import { type Condition, isLeaf, type Leaf, type Operator, type Plain, partsOf } from './condition.ts';

/** `unknown` is not `false`: a fact that nobody has given yet decides nothing. */
export type Verdict = 'true' | 'false' | 'unknown';
export type KnownFacts = Readonly<Record<string, Plain | undefined>>;

type Comparison = (left: Plain, right: Plain) => boolean;
const numbers =
  (compare: (left: number, right: number) => boolean): Comparison =>
  (left, right) =>
    typeof left === 'number' && typeof right === 'number' && compare(left, right);
const inList: Comparison = (left, right) => Array.isArray(right) && right.includes(left as string);
const holds: Comparison = (left, right) => Array.isArray(left) && left.includes(right as string);

const comparisons: Record<Operator, Comparison> = {
  equal: (left, right) => left === right,
  notEqual: (left, right) => left !== right,
  in: inList,
  notIn: (left, right) => Array.isArray(right) && !inList(left, right),
  lessThan: numbers((left, right) => left < right),
  lessThanInclusive: numbers((left, right) => left <= right),
  greaterThan: numbers((left, right) => left > right),
  greaterThanInclusive: numbers((left, right) => left >= right),
  contains: holds,
  doesNotContain: (left, right) => Array.isArray(left) && !holds(left, right),
};

function otherSide(leaf: Leaf, facts: KnownFacts): Plain | undefined {
  return typeof leaf.value === 'object' && !Array.isArray(leaf.value) ? facts[leaf.value.fact] : leaf.value;
}

function judgeLeaf(leaf: Leaf, facts: KnownFacts): Verdict {
  const left = facts[leaf.fact];
  const right = otherSide(leaf, facts);
  if (left === undefined || right === undefined) return 'unknown';
  return comparisons[leaf.operator](left, right) ? 'true' : 'false';
}

/** Kleene's strong three-valued logic over a condition tree. */
export function judge(condition: Condition, facts: KnownFacts): Verdict {
  if (isLeaf(condition)) return judgeLeaf(condition, facts);
  const parts = partsOf(condition).map((part) => judge(part, facts));
  if ('not' in condition) {
    const [inner] = parts;
    return inner === 'unknown' ? 'unknown' : inner === 'true' ? 'false' : 'true';
  }
  const settles: Verdict = 'all' in condition ? 'false' : 'true';
  if (parts.includes(settles)) return settles;
  if (parts.includes('unknown')) return 'unknown';
  return settles === 'false' ? 'true' : 'false';
}

/** The unknown facts that could still change the verdict; empty once it is settled. */
export function stillMatters(condition: Condition, facts: KnownFacts): string[] {
  if (judge(condition, facts) !== 'unknown') return [];
  if (!isLeaf(condition)) {
    return [...new Set(partsOf(condition).flatMap((part) => stillMatters(part, facts)))];
  }
  const sides =
    typeof condition.value === 'object' && !Array.isArray(condition.value)
      ? [condition.fact, condition.value.fact]
      : [condition.fact];
  return sides.filter((fact) => facts[fact] === undefined);
}
