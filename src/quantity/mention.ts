import { type Amount, isLabel, readAmount } from './amount.ts';
import { hedgeBefore, pastHedge } from './hedges.ts';
import { follows, type Token } from './tokens.ts';

/** A unit found behind a number; `key` tells two units apart. */
export interface UnitHit {
  key: string;
  next: number;
}

export type UnitFinder<U extends UnitHit> = (
  tokens: readonly Token[],
  at: number,
  amount: Amount,
) => U | undefined;

/** A number in a line with all that belongs to it: hedges, range, ±, unit. */
export interface Mention<U extends UnitHit> {
  /** In the order of likelihood; one when there is no doubt; none when it cannot be read. */
  readings: number[];
  amount: Amount;
  low?: number;
  high?: number;
  plusMinus?: number;
  plusMinusUnit?: U;
  plusMinusIsPercent?: boolean;
  bound?: 'above' | 'below';
  approx: boolean;
  denied: boolean;
  unit?: U;
  from: number;
  next: number;
}

interface Second<U extends UnitHit> {
  amount: Amount;
  unit: U | undefined;
  next: number;
}

function second<U extends UnitHit>(
  tokens: readonly Token[],
  at: number,
  find: UnitFinder<U>,
): Second<U> | undefined {
  const amount = readAmount(tokens, at);
  if (amount === undefined) return undefined;
  const unit = find(tokens, amount.next, amount);
  return { amount, unit, next: unit?.next ?? amount.next };
}

function pastWords(
  tokens: readonly Token[],
  at: number,
  choices: readonly (readonly string[])[],
): number | undefined {
  const found = choices.find((words) => follows(tokens, at, ...words));
  return found === undefined ? undefined : at + found.length;
}

const spreadWords = [
  ['±'],
  ['plus', 'or', 'minus'],
  ['plus', 'minus'],
  ['give', 'or', 'take'],
  ['+', '/', '-'],
];
const rangeWords = [['to'], ['-'], ['or'], ['till'], ['up', 'to']];
const sumWords = [['+'], ['plus']];
const timesWords = [['x'], ['times']];

function addSpread<U extends UnitHit>(
  tokens: readonly Token[],
  mention: Mention<U>,
  find: UnitFinder<U>,
): boolean {
  const at = pastWords(tokens, mention.next, spreadWords);
  const other = at === undefined ? undefined : second(tokens, at, find);
  const [value] = other?.amount.readings ?? [];
  if (other === undefined || value === undefined || other.amount.readings.length !== 1) return false;
  mention.plusMinus = Math.abs(value);
  mention.next = other.next;
  if (/^(%|percent)$/.test(tokens[other.amount.next]?.text ?? '')) mention.plusMinusIsPercent = true;
  if (other.unit !== undefined) mention.plusMinusUnit = other.unit;
  if (mention.unit === undefined && other.unit !== undefined && mention.plusMinusIsPercent !== true)
    mention.unit = other.unit;
  return true;
}

function addRange<U extends UnitHit>(
  tokens: readonly Token[],
  mention: Mention<U>,
  find: UnitFinder<U>,
): boolean {
  const between = tokens[mention.from - 1]?.text === 'between';
  const words = between ? [['and'], ...rangeWords] : rangeWords;
  const at = pastWords(tokens, mention.next, words);
  const other = at === undefined ? undefined : second(tokens, at, find);
  if (other === undefined) return false;
  const unit = mention.unit ?? other.unit;
  if (other.unit !== undefined && other.unit.key !== unit?.key) return false;
  const [a, b] = [mention.readings, other.amount.readings];
  const [low = Number.NaN, high = Number.NaN] = [a[0], b[0]];
  mention.next = other.next;
  if (unit !== undefined) mention.unit = unit;
  if (between) mention.from -= 1;
  // 'ten to three' is a time and '2 - 1/2' may be two and a half: a range goes upwards or is asked about.
  const clear = a.length === 1 && b.length === 1 && low <= high;
  const readable = a.length > 0 && b.length > 0;
  mention.readings = clear ? [(low + high) / 2] : readable ? [...a, ...b] : [];
  if (clear) Object.assign(mention, { low, high, plusMinus: (high - low) / 2 });
  return true;
}

/** 'two 5 gallon jugs': a plain count right before a quantity. */
function areSoMany<U extends UnitHit>(
  tokens: readonly Token[],
  mention: Mention<U>,
  other: Second<U>,
): boolean {
  const [count = 0] = mention.readings;
  const plain = mention.unit === undefined && mention.next === mention.amount.next && Number.isInteger(count);
  return plain && count > 1 && other.unit !== undefined && !isLabel(tokens[mention.amount.from - 1]);
}

/** '2 x 20 L', '40 + 5': the sum is offered, never taken. */
function addArithmetic<U extends UnitHit>(
  tokens: readonly Token[],
  mention: Mention<U>,
  find: UnitFinder<U>,
): boolean {
  const plus = pastWords(tokens, mention.next, sumWords);
  const times = pastWords(tokens, mention.next, timesWords);
  const other = second(tokens, plus ?? times ?? mention.next, find);
  if (other === undefined) return false;
  const joined = plus !== undefined || times !== undefined || areSoMany(tokens, mention, other);
  if (!joined) return false;
  const unit = other.unit ?? mention.unit;
  if (mention.unit !== undefined && other.unit !== undefined && mention.unit.key !== other.unit.key)
    return false;
  const [a = Number.NaN, b = Number.NaN] = [mention.readings[0], other.amount.readings[0]];
  const readable = Number.isFinite(a) && Number.isFinite(b);
  mention.readings = readable ? [plus === undefined ? a * b : a + b, b] : [];
  mention.next = other.next;
  if (unit !== undefined) mention.unit = unit;
  return true;
}

/**
 * The number at this token with everything that belongs to it, or undefined when none starts here.
 * @param find  reads the unit behind a number; give `() => undefined` to read numbers alone
 */
export function readMention<U extends UnitHit>(
  tokens: readonly Token[],
  at: number,
  find: UnitFinder<U>,
): Mention<U> | undefined {
  const amount = readAmount(tokens, at);
  if (amount === undefined) return undefined;
  const { from, bound, denied, approx } = hedgeBefore(tokens, at);
  const mention: Mention<U> = {
    readings: amount.readings,
    amount,
    approx: approx || amount.approx,
    denied,
    from,
    next: amount.next,
  };
  if (bound !== undefined) mention.bound = bound;
  takeHedge(tokens, mention);
  const unit = find(tokens, mention.next, amount);
  if (unit !== undefined) Object.assign(mention, { unit, next: unit.next });
  addSpread(tokens, mention, find) || addRange(tokens, mention, find) || addArithmetic(tokens, mention, find);
  takeHedge(tokens, mention);
  return mention;
}

function takeHedge<U extends UnitHit>(tokens: readonly Token[], mention: Mention<U>): void {
  const past = pastHedge(tokens, mention.next);
  // 'give or take 2' is a ±, read later.
  const isSpread =
    past > mention.next && tokens[past - 1]?.text === 'take' && readAmount(tokens, past) !== undefined;
  if (past === mention.next || isSpread) return;
  mention.next = past;
  mention.approx = true;
}
