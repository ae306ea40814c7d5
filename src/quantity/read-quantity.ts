import { isLabel } from './amount.ts';
import { type Candidate, findCandidates } from './candidates.ts';
import { ambiguous, needs, type QuantityProblem, unknownUnit, wrongUnit } from './quantity-problem.ts';
import { type QuantityOptions, type Target, targetOf } from './quantity-target.ts';
import type { Gallon } from './read-unit.ts';
import type { Token } from './tokens.ts';
import { convert, convertSpread, dimensionOf, type UnitId } from './units.ts';

export type { QuantityProblem } from './quantity-problem.ts';
export type { QuantityOptions } from './quantity-target.ts';

export interface QuantityRead {
  value: number;
  unit: UnitId;
  plusMinus?: number;
  low?: number;
  high?: number;
  bound?: 'above' | 'below';
  approx: boolean;
  typed: {
    value: number;
    unit: UnitId;
    /** Present when the line said 'gallon' (or pint, ...) and not which. */
    gallonAssumed?: Gallon;
    /** Present when the line named no unit. */
    unitAssumed?: true;
  };
  spanStart: number;
  spanEnd: number;
}

/** The unit of a candidate for this question, or what keeps it from having one. */
function fitOf(
  candidate: Candidate,
  target: Target,
): { unit: UnitId; assumed: boolean } | 'refused' | 'wrong' | 'unknown' | 'bare' {
  const hit = candidate.unit;
  const degrees = target.dimension === 'temperature' || target.dimension === 'temperature-difference';
  if (hit === undefined || (hit.bareDegrees && degrees)) {
    return target.defaultUnit === undefined ? 'bare' : { unit: target.defaultUnit, assumed: true };
  }
  if (hit.refused !== undefined) return 'refused';
  if (hit.unknown !== undefined) return 'unknown';
  if (hit.unit === undefined || dimensionOf(hit.unit) !== target.dimension) return 'wrong';
  return { unit: hit.unit, assumed: false };
}

interface Fitting {
  candidate: Candidate;
  unit: UnitId;
  assumed: boolean;
}

function readingsIn(target: Target, { candidate, unit }: Fitting): number[] {
  const all = candidate.readings.map((value) => convert(value, unit, target.unit));
  const { plausible } = target;
  if (all.length < 2 || plausible === undefined) return all;
  const inside = all.filter((value) => value >= plausible[0] && value <= plausible[1]);
  return inside.length > 0 ? inside : all;
}

/** Are two the same quantity, written twice: 130 F (54 C)? In one and the same unit only if equal. */
function isWrittenTwice(a: Fitting, b: Fitting, target: Target): boolean {
  const [x = Number.NaN, y = Number.NaN] = [readingsIn(target, a)[0], readingsIn(target, b)[0]];
  if (a.unit === b.unit) return x === y;
  const rounded =
    target.dimension === 'temperature'
      ? convertSpread(0.6, 'degC', target.unit)
      : 0.015 * Math.max(Math.abs(x), Math.abs(y));
  return Math.abs(x - y) <= rounded;
}

/** 'tank 2' is a name, as long as there is another number to take. */
function isLabelled(tokens: readonly Token[], candidate: Candidate): boolean {
  return isLabel(tokens[candidate.from - 1]);
}

const listMark = /^(,|;|&|and|\/)$/;

function isNextInList(tokens: readonly Token[], first: Candidate, second: Candidate): boolean {
  return second.from === first.next + 1 && listMark.test(tokens[first.next]?.text ?? '');
}

/**
 * Bare numbers in one list with a number that has a unit: '2.4, 2.5, 2.6 mL' is three readings, and
 * none of them is to be picked in silence. Behind the unit only a similar number counts: '40 gal, 130'
 * answers two questions.
 */
function listed(tokens: readonly Token[], explicit: Fitting[], fitting: Fitting[]): Fitting[] {
  const [anchor] = explicit;
  if (anchor === undefined) return [];
  const found: Fitting[] = [];
  let first = anchor.candidate;
  for (const one of fitting.filter((other) => other.assumed).reverse()) {
    if (isLabelled(tokens, one.candidate) || !isNextInList(tokens, one.candidate, first)) continue;
    found.push({ ...one, unit: anchor.unit });
    first = one.candidate;
  }
  const [value = 0] = anchor.candidate.readings;
  const after = fitting.find((one) => one.assumed && isNextInList(tokens, anchor.candidate, one.candidate));
  const ratio = (after?.candidate.readings[0] ?? 0) / value;
  if (after !== undefined && ratio > 0.5 && ratio < 2) found.push({ ...after, unit: anchor.unit });
  return found;
}

function choose(tokens: readonly Token[], found: Candidate[], target: Target): Fitting[] | QuantityProblem {
  const fits = found.map((candidate) => ({ candidate, fit: fitOf(candidate, target) }));
  const fitting = fits.flatMap(({ candidate, fit }) =>
    typeof fit === 'string' ? [] : [{ candidate, ...fit }],
  );
  const explicit = fitting.filter((one) => !one.assumed);
  if (explicit.length > 0) return [...explicit, ...listed(tokens, explicit, fitting)];
  const first = (kind: string) => fits.find(({ fit }) => fit === kind)?.candidate;
  const [refused, wrong, unknown] = [first('refused'), first('wrong'), first('unknown')];
  if (refused !== undefined) return { problem: 'unknown-unit', say: refused.unit?.refused ?? needs(target) };
  if (wrong !== undefined) return wrongUnit(wrong, target);
  if (unknown !== undefined) return unknownUnit(unknown, target);
  if (first('bare') !== undefined)
    return { problem: 'unknown-unit', say: `Say the unit too. ${needs(target)}` };
  const unlabelled = fitting.filter((one) => !isLabelled(tokens, one.candidate));
  return unlabelled.length > 0 ? unlabelled : fitting;
}

function resultOf(
  text: string,
  tokens: readonly Token[],
  value: number,
  fitting: Fitting,
  target: Target,
): QuantityRead {
  const { candidate, unit, assumed } = fitting;
  const typed: QuantityRead['typed'] = { value: convert(value, target.unit, unit), unit };
  if (candidate.readings.length === 1) typed.value = candidate.readings[0] ?? typed.value;
  if (candidate.unit?.gallonAssumed !== undefined) typed.gallonAssumed = candidate.unit.gallonAssumed;
  if (assumed) typed.unitAssumed = true;
  const read: QuantityRead = {
    value,
    unit: target.unit,
    approx: candidate.approx,
    typed,
    spanStart: tokens[candidate.from]?.start ?? 0,
    spanEnd: tokens[candidate.next - 1]?.end ?? text.length,
  };
  if (candidate.bound !== undefined) read.bound = candidate.bound;
  if (candidate.low !== undefined) read.low = convert(candidate.low, unit, target.unit);
  if (candidate.high !== undefined) read.high = convert(candidate.high, unit, target.unit);
  const plusMinus = spreadOf(fitting, target);
  if (plusMinus !== undefined) read.plusMinus = plusMinus;
  return read;
}

function spreadOf({ candidate, unit }: Fitting, target: Target): number | undefined {
  const { plusMinus, plusMinusUnit, plusMinusIsPercent, readings } = candidate;
  if (plusMinus === undefined) return undefined;
  if (plusMinusIsPercent && target.dimension !== 'fraction') {
    return convertSpread((Math.abs(readings[0] ?? 0) * plusMinus) / 100, unit, target.unit);
  }
  const own = plusMinusUnit?.unit;
  const from = own !== undefined && dimensionOf(own) === target.dimension ? own : unit;
  return convertSpread(plusMinus, from, target.unit);
}

/**
 * The quantity that a typed line answers with, turned into the unit asked for. A number with a fitting
 * unit wins over bare numbers; whatever could mean two things is handed back as a question, never
 * guessed. Any string is allowed.
 * @example readQuantity('about 130 F', { unit: 'degC' }) // value 54.44, approx, typed 130 degF
 */
export function readQuantity(text: string, options: QuantityOptions): QuantityRead | QuantityProblem {
  const target = targetOf(options);
  const { tokens, found } = findCandidates(text, target.dimension, options.gallon ?? 'US');
  if (found.length === 0) return { problem: 'no-number', say: needs(target) };
  const chosen = choose(tokens, found, target);
  if (!Array.isArray(chosen)) return chosen;
  const readings = chosen.map((fitting) => readingsIn(target, fitting));
  const [fitting] = chosen;
  const [value] = readings[0] ?? [];
  if (fitting === undefined || value === undefined) return { problem: 'no-number', say: needs(target) };
  const sure = readings.every((list) => list.length === 1);
  const one = sure && chosen.every((other) => isWrittenTwice(fitting, other, target));
  if (!one) return ambiguous(readings.flat(), target.unit);
  if (!Number.isFinite(value)) return { problem: 'no-number', say: needs(target) };
  return resultOf(text, tokens, value, fitting, target);
}
