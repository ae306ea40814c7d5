import type { Calculation } from './calculation.ts';
import { ALKALIS, type Alkali, alkaliGPerMol, PHTHALATE_G_PER_MOL } from './molar-masses.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

/**
 * True strength of a reference solution from a weighed portion of potassium hydrogen phthalate, which takes
 * up alkali mole for mole.   c = m / 204.22 * M * 1000 / V
 * @param phthalateG  potassium hydrogen phthalate weighed in [g], scalar
 * @param titrantMl   reference solution used, blank taken off [mL], scalar
 * @param alkali      alkali in the solution [text]
 * @returns           pure alkali in the solution [g/L], scalar
 * @throws OutOfRangeError  phthalate outside 0.01..5 g or titrant outside 1..200 mL
 * @source worked-out, one mole against one mole; iupac-atomic-masses
 * @example strengthByPhthalate(0.1, 27.5, 'KOH') // 0.999
 */
export function strengthByPhthalate(phthalateG: number, titrantMl: number, alkali: Alkali): number {
  requireRange('phthalate', phthalateG, 'g', 0.01, 5, 'common-practice');
  requireRange('titrant used', titrantMl, 'mL', 1, 200, 'common-practice');
  return ((phthalateG / PHTHALATE_G_PER_MOL) * alkaliGPerMol(alkali) * 1000) / titrantMl;
}

export const strengthCalculation: Calculation = {
  name: 'strength',
  about: 'True strength of the reference solution, checked against potassium hydrogen phthalate.',
  inputs: {
    phthalate: { unit: 'g', about: 'potassium hydrogen phthalate, dried', default: 0.1, reads: 0.001 },
    titrant: { unit: 'mL', about: 'reference solution used', reads: 0.2 },
    reagent: { unit: 'text', about: 'alkali in the reference solution', choices: ALKALIS },
    nominal: { unit: 'g/L', about: 'strength that was meant', default: 1 },
  },
  outputs: {
    strength: { unit: 'g/L', about: 'pure alkali in the reference solution', digits: 3 },
    offNominal: {
      unit: '%',
      about: 'how far the strength lies above (+) or below (-) what was meant',
      digits: 2,
    },
  },
  sources: ['worked-out', 'iupac-atomic-masses', 'common-practice'],
  run(inputs) {
    const nominalGPerL = numberOf(inputs, 'nominal');
    requireRange('strength that was meant', nominalGPerL, 'g/L', 0.05, 60, 'common-practice');
    const strength = strengthByPhthalate(
      numberOf(inputs, 'phthalate'),
      numberOf(inputs, 'titrant'),
      choiceOf(inputs, 'reagent', ALKALIS),
    );
    return { strength, offNominal: 100 * (strength / nominalGPerL - 1) };
  },
};
