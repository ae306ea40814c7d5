import { convert, type UnitId } from '../../quantity/units.ts';
import type { ReadContext } from './read-context.ts';
import type { Measure } from './read-measure.ts';

/** What else a number without a unit may be, where people use two systems. */
function rivalOf(unit: UnitId, context: ReadContext): UnitId | undefined {
  if (unit === 'degC') return 'degF';
  if (unit === 'L') return context.gallon === 'imperial' ? 'galImp' : 'galUS';
  if (unit === 'm') return 'ft';
  if (unit === 'kPa') return 'psi';
  return unit === 'kg' ? 'lb' : undefined;
}

/** Units whose name in the question settles what a bare number is. */
const named: Partial<Record<UnitId, RegExp>> = {
  L: /\blit(re|er)s?\b/i,
  m: /\bmet(re|er)s?\b/i,
  kg: /\bkilo(gram)?s?\b/i,
  kPa: /\bkpa\b|kilopascal/i,
};

/** How a number without a unit is to be taken. */
export type PlainUnit =
  | { take: UnitId }
  /** The likely unit first, the other second. */
  | { ask: [UnitId, UnitId]; likely: boolean };

const inside = ([low, high]: [number, number], value: number) => value >= low && value <= high;

/** Which unit a bare number is in; two that both make sense are asked about, unless the maker's habit tells. */
export function plainUnit(measure: Measure, value: number, context: ReadContext): PlainUnit {
  const own = measure.unit;
  const rival = rivalOf(own, context);
  const habit = context.habits[own];
  const nought = value === 0 && own !== 'degC';
  if (!rival || nought || context.bareAsAsked || habit === own || named[own]?.test(measure.asked ?? '')) {
    return { take: own };
  }
  const asOwn = inside(measure.plausible, value);
  const asRival = inside(measure.plausible, convert(value, rival, own));
  if (habit === rival) {
    if (asOwn) return asRival ? { ask: [rival, own], likely: true } : { ask: [own, rival], likely: false };
    return { take: asRival ? rival : own };
  }
  return asOwn && asRival ? { ask: [own, rival], likely: false } : { take: own };
}
