import { type QuantityRead, readQuantity } from '../../quantity/read-quantity.ts';
import { bothSystems, showQuantity } from '../../quantity/show.ts';
import { convert, dimensionOf, type UnitId } from '../../quantity/units.ts';
import type { Answer } from '../events.ts';
import { doubtAround, isChange } from './read-around.ts';
import { type GallonKind, noContext, type ReadContext } from './read-context.ts';
import { plainUnit } from './read-plain-unit.ts';
import { bare, type Reading } from './reading.ts';

type Span = [number, number];
/** What may be read: the unit, what is usual, what can be at all, and the ± of the usual instrument. */
export interface Measure {
  unit: UnitId;
  plausible: Span;
  possible: Span;
  reads: number;
  /** The question as asked, and every word of it and of its help. */
  asked?: string;
  about?: ReadonlySet<string>;
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
  h: ['h', 'min', 'day'],
  m: ['m', 'ft'],
  W: ['W', 'kW'],
  kPa: ['kPa', 'psi', 'bar'],
  'g/mL': ['g/mL', 'g/L'],
};

function quantity(
  measure: Measure,
  value: number,
  typed: { value: number; unit: UnitId },
  plusMinus: number = measure.reads,
): Answer {
  return { kind: 'quantity', value, unit: measure.unit, plusMinus, typed };
}

/** Units that are meant only where none was typed. */
const onlyUnsaid = new Set<UnitId>(['oz', 'lb', 'psi', 'bar', 'day']);

const farBeyond = 1.5;

/** What was likely meant: the same number in another unit, else a digit too many or a lost point. */
function likelyMeaning(measure: Measure, typed: QuantityRead['typed'], not: number): Answer | undefined {
  const units = (mixedUp[measure.unit] ?? [measure.unit]).filter(
    (unit) => typed.unitAssumed || !onlyUnsaid.has(unit),
  );
  const swapped = units.map((unit) => ({ value: typed.value, unit }));
  // A little beyond what is usual is a reading, not a slip: 300 °F is no 30 °C.
  const far =
    typed.unitAssumed || not > measure.plausible[1] * farBeyond || not < measure.plausible[0] / farBeyond;
  const slipped = (far ? [measure.unit, typed.unit] : []).map((unit) => ({ value: typed.value / 10, unit }));
  for (const likely of [...swapped, ...slipped]) {
    const value = convert(likely.value, likely.unit, measure.unit);
    if (within(measure.plausible, value) && Math.abs(value - not) > 1e-9)
      return quantity(measure, value, likely);
  }
  return undefined;
}

/** "A third" of a tank is 33 %, not 0.33 %. */
const shareWords = /\b(half|thirds?|quarters?|fifths?|tenths?)\b|\d\/\d|[½⅓⅔¼¾⅕]/i;

function isShare(measure: Measure, read: QuantityRead): boolean {
  return measure.unit === '%' && read.typed.unitAssumed === true && read.value > 0 && read.value <= 1;
}

/** "None" is nought, where there can be none. */
function readNought(measure: Measure, text: string): Answer | undefined {
  const typed = bare(text);
  const nought =
    measure.unit === 'money' ? /^(none|nothing|nil|zero|free|it was free)$/ : /^(none|nothing|nil|zero)$/;
  const counts =
    measure.plausible[0] === 0 && !['temperature', 'acidity'].includes(dimensionOf(measure.unit));
  return counts && nought.test(typed) ? quantity(measure, 0, { value: 0, unit: measure.unit }) : undefined;
}

/** A gallon, quart, pint or fluid ounce of which it is not known whether it is US or imperial: asked once. */
function askGallon(measure: Measure, text: string, context: ReadContext): Reading | undefined {
  const of = (gallon: GallonKind) => readMeasure(measure, text, { ...context, gallon });
  const [us, imperial] = [of('US'), of('imperial')];
  if (!('sure' in us) || !('sure' in imperial)) return 'sure' in imperial ? imperial : us;
  const either = [
    { say: 'US', answer: us.sure },
    { say: 'imperial', answer: imperial.sure },
  ];
  return { says: 'US or imperial gallons? I ask this once.', meant: us.sure, either };
}

/** A bare number that makes sense in two units. */
function askUnit(measure: Measure, read: QuantityRead, units: [UnitId, UnitId], likely: boolean): Reading {
  const typed = read.typed.value;
  const spread = read.approx ? 2 * measure.reads : measure.reads;
  const answers = units.map((unit) =>
    quantity(measure, convert(typed, unit, measure.unit), { value: typed, unit }, spread),
  );
  const words = units.map((unit) => showQuantity(typed, unit, {}));
  const [first, second] = answers as [Answer, Answer];
  if (likely)
    return {
      says: `${words[0]}, as before?`,
      meant: first,
      ...(within2(measure, second) ? { typed: second } : {}),
    };
  const either = answers.map((answer, index) => ({ say: words[index] ?? '', answer }));
  return { says: `${words[0]} or ${words[1]}? Say the unit too.`, meant: first, either };
}

function within2(measure: Measure, answer: Answer): boolean {
  return answer.kind === 'quantity' && within(measure.plausible, answer.value);
}

/** A surprising reading is asked about with its likely meaning, an impossible one refused. */
function judge(
  measure: Measure,
  answer: Answer & { kind: 'quantity' },
  typed: QuantityRead['typed'],
): Reading {
  const { value } = answer;
  if (within(measure.plausible, value)) return { sure: answer };
  const shown = bothSystems(value, measure.unit, { typedUnit: typed.unit });
  const meant = likelyMeaning(measure, typed, value);
  const suggestion =
    meant?.kind === 'quantity' && meant.typed ? showQuantity(meant.typed.value, meant.typed.unit, {}) : '';
  if (!within(measure.possible, value)) {
    const limits = `it can only be ${spanInWords(measure, measure.possible)}`;
    if (!meant) return { notUnderstood: `${shown} cannot be: ${limits}. What does it read?` };
    return { says: `${shown} cannot be: ${limits}. Did you mean ${suggestion}?`, meant };
  }
  const usual = `${shown} would surprise me: usual is ${spanInWords(measure, measure.plausible)}.`;
  if (meant) return { says: `${usual} Did you mean ${suggestion}?`, meant, typed: answer };
  return { says: `${usual} Shall I write it as it stands?`, meant: answer, typed: answer };
}

function settle(measure: Measure, text: string, read: QuantityRead): Reading {
  const value = isShare(measure, read) && shareWords.test(text) ? read.value * 100 : read.value;
  const spread = read.plusMinus ?? (read.approx ? 2 * measure.reads : measure.reads);
  const typed = { value: read.typed.value, unit: read.typed.unit };
  const answer = { ...quantity(measure, value, typed, Math.max(spread, 0)), kind: 'quantity' } as Answer & {
    kind: 'quantity';
  };
  const reading = judge(measure, answer, read.typed);
  if (!('sure' in reading)) return reading;
  const doubt = doubtAround(measure, text, { ...read, value });
  if (doubt) return { says: doubt, meant: answer };
  const { low, high } = read;
  if (low === undefined || high === undefined) return reading;
  const shown = bothSystems(value, measure.unit, { typedUnit: typed.unit, plusMinus: answer.plusMinus });
  const wide = !within(measure.plausible, low) || !within(measure.plausible, high);
  return wide || /\bor\b/i.test(text) ? { says: `Shall I write ${shown}?`, meant: answer } : reading;
}

/** Takes a typed reading as it was meant; what could mean two things is asked about, never guessed. */
export function readMeasure(measure: Measure, text: string, context: ReadContext = noContext): Reading {
  const nought = readNought(measure, text);
  if (nought) return { sure: nought };
  const { unit, plausible } = measure;
  const plain = text.replace(/^\s*no,\s*/i, '').replace(/(\d)\s+point\s+(\d)/i, '$1.$2');
  const read = readQuantity(plain, { unit, plausible, gallon: context.gallon ?? 'US' });
  if ('problem' in read) return { notUnderstood: read.say };
  if (isChange(plain)) return { notUnderstood: 'That is a change, not a reading. What does it read now?' };
  if (read.typed.gallonAssumed && !context.gallon)
    return askGallon(measure, text, context) ?? settle(measure, plain, read);
  if (!read.typed.unitAssumed) return settle(measure, plain, read);
  const taken = plainUnit(measure, read.typed.value, context);
  if ('ask' in taken) return askUnit(measure, read, taken.ask, taken.likely);
  if (taken.take === unit) return settle(measure, plain, read);
  const again = readQuantity(plain, { unit, plausible, defaultUnit: taken.take });
  return 'problem' in again ? { notUnderstood: again.say } : settle(measure, plain, again);
}
