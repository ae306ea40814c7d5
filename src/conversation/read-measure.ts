import { readQuantity } from '../quantity/read-quantity.ts';
import { bothSystems, showQuantity } from '../quantity/show.ts';
import { convert, type UnitId } from '../quantity/units.ts';
import type { Answer } from './events.ts';
import type { Reading } from './reading.ts';

type Span = [number, number];
/** What may be read: the unit, what is usual, what can be at all, and the ± of the usual instrument. */
export interface Measure {
  unit: UnitId;
  plausible: Span;
  possible: Span;
  reads: number;
}

function within([low, high]: Span, value: number): boolean {
  return value >= low && value <= high;
}

function spanInWords(measure: Measure, span: Span): string {
  return `${showQuantity(span[0], measure.unit, {})} to ${showQuantity(span[1], measure.unit, {})}`;
}

/** Units that are often meant when another, or none, was typed. */
const mixedUp: Record<string, UnitId[]> = {
  degC: ['degF', 'degC'],
  L: ['galUS', 'L', 'mL'],
  mL: ['mL', 'L'],
  g: ['g', 'kg', 'oz', 'lb'],
  kg: ['kg', 'lb', 'g'],
  min: ['min', 'h'],
  m: ['m', 'ft'],
};

function likelyMeaning(measure: Measure, typed: number, not: number): Answer | undefined {
  for (const unit of mixedUp[measure.unit] ?? []) {
    const value = convert(typed, unit, measure.unit);
    if (within(measure.plausible, value) && Math.abs(value - not) > 1e-9)
      return quantity(measure, value, { value: typed, unit });
  }
  return undefined;
}

function quantity(
  measure: Measure,
  value: number,
  typed: { value: number; unit: UnitId },
  plusMinus: number = measure.reads,
): Answer {
  return { kind: 'quantity', value, unit: measure.unit, plusMinus, typed };
}

/** "A third" of a tank is 33 %, not 0.33 %. */
const shareWords = /\b(half|thirds?|quarters?|fifths?|tenths?)\b|\d\/\d|[½⅓⅔¼¾⅕]/i;

function isShare(measure: Measure, read: { value: number; typed: { unitAssumed?: true } }): boolean {
  return measure.unit === '%' && read.typed.unitAssumed === true && read.value > 0 && read.value <= 1;
}

/** Takes a typed reading; a surprising one is asked about with its likely meaning, an impossible one refused. */
export function readMeasure(measure: Measure, text: string): Reading {
  const read = readQuantity(text, { unit: measure.unit, plausible: measure.plausible });
  if ('problem' in read) return { notUnderstood: read.say };
  const { typed } = read;
  const value = isShare(measure, read) && shareWords.test(text) ? read.value * 100 : read.value;
  const spread = read.plusMinus ?? (read.approx ? 2 * measure.reads : measure.reads);
  const answer = quantity(measure, value, { value: typed.value, unit: typed.unit }, Math.max(spread, 0));
  if (within(measure.plausible, value)) return { sure: answer };
  const shown = bothSystems(value, measure.unit, { typedUnit: typed.unit });
  const meant = likelyMeaning(measure, typed.value, value);
  const suggestion =
    meant?.kind === 'quantity' ? showQuantity(typed.value, meant.typed?.unit ?? measure.unit, {}) : '';
  if (!within(measure.possible, value)) {
    const limits = `it can only be ${spanInWords(measure, measure.possible)}`;
    if (!meant) return { notUnderstood: `${shown} cannot be: ${limits}. What does it read?` };
    return { says: `${shown} cannot be: ${limits}. Did you mean ${suggestion}?`, meant };
  }
  const usual = `usual is ${spanInWords(measure, measure.plausible)}`;
  if (meant)
    return {
      says: `${shown} would surprise me: ${usual}. Did you mean ${suggestion}?`,
      meant,
      typed: answer,
    };
  return {
    says: `${shown} would surprise me: ${usual}. Shall I write it as it stands?`,
    meant: answer,
    typed: answer,
  };
}
