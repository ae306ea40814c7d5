import type { Candidate } from './candidates.ts';
import type { Target } from './quantity-target.ts';
import { showQuantity } from './show.ts';
import { dimensionOf, dimensionWords, type UnitId } from './units.ts';

export interface QuantityProblem {
  problem: 'no-number' | 'wrong-unit' | 'ambiguous' | 'unknown-unit';
  /** One plain sentence: what would be right. */
  say: string;
  /** In the result's unit. */
  readings?: number[];
}

export function needs(target: Target): string {
  const { noun, examples } = dimensionWords[target.dimension];
  return `I need ${noun}: for example ${exampleByUnit[target.unit] ?? examples}.`;
}

/** Where the examples of the dimension are of another size than what is asked for. */
const exampleByUnit: Partial<Record<UnitId, string>> = {
  mL: '2.5 mL',
  g: '350 g',
  s: '30 s',
  day: '3 days',
  'g/L': '9 g/L',
  'g/mL': '0.92 g/mL',
  ppm: '500 ppm',
};

export function wrongUnit(candidate: Candidate, target: Target): QuantityProblem {
  const id = candidate.unit?.unit;
  const [value = 0] = candidate.readings;
  const said = candidate.unit?.bareDegrees
    ? 'Degrees measure'
    : `${id === undefined ? '' : showQuantity(value, id)} is`;
  const noun = id === undefined ? 'a temperature' : dimensionWords[dimensionOf(id)].noun;
  const need = needs(target);
  return { problem: 'wrong-unit', say: `${said} ${noun}, and ${need}` };
}

export function unknownUnit(candidate: Candidate, target: Target): QuantityProblem {
  const word = candidate.unit?.unknown ?? '';
  return { problem: 'unknown-unit', say: `I do not know the unit '${word.slice(0, 20)}'. ${needs(target)}` };
}

export function ambiguous(values: readonly number[], unit: UnitId): QuantityProblem {
  const readings = [...new Set(values)];
  const shown = [...new Set(readings.map((value) => showQuantity(value, unit)))].join(' or ');
  return {
    problem: 'ambiguous',
    say: `That can be read as ${shown}. Type just the one you mean, with its unit.`,
    readings,
  };
}
