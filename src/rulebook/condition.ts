/** What a rule file may compare with; the names are those of json-rules-engine. */
export const operators = [
  'equal',
  'notEqual',
  'in',
  'notIn',
  'lessThan',
  'lessThanInclusive',
  'greaterThan',
  'greaterThanInclusive',
  'contains',
  'doesNotContain',
] as const;

export type Operator = (typeof operators)[number];
export type Plain = string | number | boolean | string[];
export type Leaf = { fact: string; operator: Operator; value: Plain | { fact: string } };
export type Condition = Leaf | { all: Condition[] } | { any: Condition[] } | { not: Condition };

export function isLeaf(condition: Condition): condition is Leaf {
  return 'fact' in condition;
}

/** The conditions directly inside a group; none for a leaf. */
export function partsOf(condition: Condition): Condition[] {
  if ('all' in condition) return condition.all;
  if ('any' in condition) return condition.any;
  if ('not' in condition) return [condition.not];
  return [];
}

export function leavesOf(condition: Condition): Leaf[] {
  return isLeaf(condition) ? [condition] : partsOf(condition).flatMap(leavesOf);
}

/** Every fact that a condition looks at, on either side of an operator, each once. */
export function factsOf(condition: Condition): string[] {
  const named = leavesOf(condition).flatMap((one) =>
    typeof one.value === 'object' && !Array.isArray(one.value) ? [one.fact, one.value.fact] : [one.fact],
  );
  return [...new Set(named)];
}
