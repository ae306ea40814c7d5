import { bothSystems, showQuantity } from '../../quantity/show.ts';
import { convert, sameDimension } from '../../quantity/units.ts';
import { type Book, questionOf } from '../../rulebook/book.ts';
import type { State } from '../state.ts';
import type { Reading } from './reading.ts';

/** How far from the figure named in the question a reading may be before it is asked about. */
const farOff = 1.2;

/** A reading far from what the question itself names ("Weigh 1450 g ...") is asked about before it counts. */
export function heldAgainstExpected(book: Book, state: State, question: string, reading: Reading): Reading {
  if (!('sure' in reading) || reading.sure.kind !== 'quantity') return reading;
  const { value, unit, typed } = reading.sure;
  const named = [...questionOf(book, question).ask.matchAll(/\{([a-zA-Z0-9-]+)\}/g)];
  const expected = named
    .map(([, fact = '']) => state.figures[fact])
    .find((figure) => figure !== undefined && sameDimension(figure.unit, unit));
  if (!expected || expected.value <= 0) return reading;
  const wanted = convert(expected.value, expected.unit, unit);
  const spread = convert(expected.value + expected.plusMinus, expected.unit, unit) - wanted;
  const far = value > wanted * farOff || value < wanted / farOff;
  if (!far || Math.abs(value - wanted) <= spread) return reading;
  const shown = typed ? showQuantity(typed.value, typed.unit, {}) : showQuantity(value, unit, {});
  const figure = bothSystems(expected.value, expected.unit, { plusMinus: expected.plusMinus });
  return { says: `I worked out ${figure}. Is it really ${shown}?`, meant: reading.sure };
}
