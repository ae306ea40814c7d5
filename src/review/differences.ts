import type { TroubleOutcome } from '../conversation/events.ts';
import { type Evaluation, type Figure, figuresAfter } from '../rulebook/evaluation.ts';
import { hazardKey } from '../rulebook/rule-keys.ts';

export type DifferenceKind =
  | 'advice'
  | 'stop'
  | 'figure'
  | 'way'
  | 'question'
  | 'clearing'
  | 'pause-warning'
  | 'trouble';

/** One thing that came out otherwise then than now. */
export interface Outcome {
  kind: DifferenceKind;
  id: string;
  was: string;
  now: string;
  /** The condition in the rules that it rests on, where there is one. */
  key?: string;
}

const kindOf = new Map<string, DifferenceKind>([
  ['advice', 'advice'],
  ['ask', 'question'],
  ['leave', 'way'],
  ['way', 'way'],
  ['clear', 'clearing'],
  ['stay', 'pause-warning'],
]);

/** Numbers are compared as far as a log can hold them. */
const sameNumber = (one: number, other: number) => Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));

/** Whether a figure is known at one time only, or has another value or ±. */
export function differs(one: Figure | undefined, other: Figure | undefined): boolean {
  if (!one || !other) return one !== other;
  const same = sameNumber(one.value, other.value) && sameNumber(one.plusMinus, other.plusMinus);
  return one.unit !== other.unit || !same;
}

/** What is in one list only, with where it is. */
function inOneOnly(then: readonly string[], now: readonly string[]): { id: string; before: boolean }[] {
  return [...new Set([...then, ...now])]
    .filter((id) => then.includes(id) !== now.includes(id))
    .map((id) => ({ id, before: then.includes(id) }));
}

function conditionDifferences(then: Evaluation, now: Evaluation): Outcome[] {
  return inOneOnly(then.true, now.true).flatMap(({ id: key, before }) => {
    const [prefix = ''] = key.split(':');
    const kind = kindOf.get(prefix);
    if (!kind) return [];
    const id = key.slice(prefix.length + 1);
    return [
      { kind, id, key, was: before ? 'held' : 'did not hold', now: before ? 'does not hold' : 'holds' },
    ];
  });
}

function stopDifferences(then: Evaluation, now: Evaluation): Outcome[] {
  return inOneOnly(then.unsafe, now.unsafe).map(({ id, before }) => ({
    kind: 'stop',
    id,
    key: hazardKey(id),
    was: before ? 'stopped' : 'did not stop',
    now: before ? 'does not stop' : 'stops',
  }));
}

/** Figures that would be told otherwise; what is too small to show is no difference to anybody. */
function figureDifferences(
  then: Readonly<Record<string, Figure>>,
  now: Readonly<Record<string, Figure>>,
  show: (figure: Figure) => string,
): Outcome[] {
  const words = (figure: Figure | undefined) => (figure ? show(figure) : 'not worked out');
  return [...new Set([...Object.keys(then), ...Object.keys(now)])].flatMap((id) => {
    if (!differs(then[id], now[id])) return [];
    const [was, is] = [words(then[id]), words(now[id])];
    return was === is ? [] : [{ kind: 'figure' as const, id, was, now: is }];
  });
}

/** Questions that are asked only while they can decide something. */
function decidingDifferences(then: Evaluation, now: Evaluation): Outcome[] {
  return inOneOnly(then.deciding, now.deciding).map(({ id, before }) => ({
    kind: 'question',
    id,
    was: before ? 'could decide something' : 'could decide nothing',
    now: before ? 'can decide nothing and is left out' : 'can decide something',
  }));
}

/** What one run of the rules says otherwise than the log says that it said; figures first, for the rest may rest on them. */
export function evaluationDifferences(
  before: Readonly<Record<string, Figure>>,
  then: Evaluation,
  now: Evaluation,
  show: (figure: Figure) => string,
): Outcome[] {
  return [
    ...figureDifferences(figuresAfter(before, then), figuresAfter(before, now), show),
    ...stopDifferences(then, now),
    ...conditionDifferences(then, now),
    ...decidingDifferences(then, now),
  ];
}

const percent = (probability: number) => `${Math.round(probability * 100)} %`;

function causeInWords({ causes: [first], settled }: TroubleOutcome): string {
  if (!first) return 'no cause';
  return `${first.id} (${percent(first.probability)}${settled ? ', sure enough' : ''})`;
}

/** What would be thought of a trouble otherwise: the likeliest cause, whether it is sure, what to check next. */
export function troubleDifferences(then: TroubleOutcome, now: TroubleOutcome): Outcome[] {
  const differences: Outcome[] = [];
  const otherCause = then.causes[0]?.id !== now.causes[0]?.id;
  if (otherCause || then.settled !== now.settled)
    differences.push({ kind: 'trouble', id: 'cause', was: causeInWords(then), now: causeInWords(now) });
  const [check, checkNow] = [then.next?.finding ?? 'none', now.next?.finding ?? 'none'];
  if (check !== checkNow) differences.push({ kind: 'trouble', id: 'next-check', was: check, now: checkNow });
  return differences;
}
