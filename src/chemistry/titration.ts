import type { Calculation } from './calculation.ts';
import { ALKALIS, type Alkali, alkaliGPerMol } from './molar-masses.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

/** The factor printed in the standards: 56.1 mg KOH per mmol. */
const KOH_MG_PER_MMOL = 56.1;
/** Acid value that goes with one percent of free acid counted as oleic (AOCS Ca 5a-40, note). */
export const ACID_VALUE_PER_FFA_PERCENT = 1.99;

/**
 * Strength of a reference solution in moles.   c = strength / M
 * @param strengthGPerL  pure alkali in the solution [g/L], scalar
 * @param alkali         NaOH or KOH [text]
 * @returns              strength [mol/L], scalar
 * @throws OutOfRangeError  outside 0.05..60 g/L
 * @source iupac-atomic-masses; range common-practice
 * @example molarStrength(1, 'NaOH') // 0.02500
 */
export function molarStrength(strengthGPerL: number, alkali: Alkali): number {
  requireRange('strength of the reference solution', strengthGPerL, 'g/L', 0.05, 60, 'common-practice');
  return strengthGPerL / alkaliGPerMol(alkali);
}

/**
 * Acid value of an oil by titration.   AV = 56.1 * (V - V_blank) * c / m
 * @param titrantMl        titrant used with the oil in it [mL], scalar
 * @param blankMl          titrant used by the solvent alone [mL], scalar
 * @param strengthMolPerL  strength of the titrant [mol/L], scalar
 * @param sampleG          oil weighed in [g], scalar
 * @returns                acid value [mg KOH/g], scalar
 * @throws OutOfRangeError  titrant outside 0..100 mL, blank above the titrant, sample outside 0.05..200 g,
 *                          or a result above 199 mg KOH/g, which is pure oleic acid
 * @source en-14104, calculation; aocs-cd-3d-63, same form
 * @example acidValue(2.5, 0, 0.1, 5) // 2.805
 */
export function acidValue(
  titrantMl: number,
  blankMl: number,
  strengthMolPerL: number,
  sampleG: number,
): number {
  requireRange('titrant used', titrantMl, 'mL', 0, 100, 'common-practice');
  requireRange('blank', blankMl, 'mL', 0, titrantMl, 'en-14104');
  requireRange('oil sample', sampleG, 'g', 0.05, 200, 'common-practice');
  const result = (KOH_MG_PER_MMOL * (titrantMl - blankMl) * strengthMolPerL) / sampleG;
  requireRange('acid value', result, 'mg KOH/g', 0, 199, 'worked-out');
  return result;
}

/**
 * Free fatty acid that goes with an acid value, counted as oleic acid.   FFA = AV / 1.99
 * @param acidValueMgPerG  acid value [mg KOH/g], scalar
 * @returns                free fatty acid [%], mass percent, scalar
 * @throws OutOfRangeError  outside 0..199 mg KOH/g
 * @source aocs-ca-5a-40, note on the acid value
 * @example freeFattyAcidPercent(2.805) // 1.4095
 */
export function freeFattyAcidPercent(acidValueMgPerG: number): number {
  requireRange('acid value', acidValueMgPerG, 'mg KOH/g', 0, 199, 'worked-out');
  return acidValueMgPerG / ACID_VALUE_PER_FFA_PERCENT;
}

/**
 * Free fatty acid straight from the titration, counted as oleic acid.   FFA = V * c * 28.2 / m
 * @param titrantMl        titrant used, blank taken off [mL], scalar
 * @param strengthMolPerL  strength of the titrant [mol/L], scalar
 * @param sampleG          oil weighed in [g], scalar
 * @returns                free fatty acid [%], mass percent, scalar
 * @throws OutOfRangeError  titrant outside 0..100 mL or sample outside 0.05..200 g
 * @source aocs-ca-5a-40, calculation
 * @example freeFattyAcidByAocs(2.5, 0.1, 5) // 1.410
 */
export function freeFattyAcidByAocs(titrantMl: number, strengthMolPerL: number, sampleG: number): number {
  requireRange('titrant used', titrantMl, 'mL', 0, 100, 'common-practice');
  requireRange('oil sample', sampleG, 'g', 0.05, 200, 'common-practice');
  return (titrantMl * strengthMolPerL * 28.2) / sampleG;
}

export const titrationCalculation: Calculation = {
  name: 'titration',
  about: 'Acid value and free fatty acid of an oil from a titration.',
  inputs: {
    sample: { unit: 'mL', about: 'oil in the flask', default: 1, reads: 0.03 },
    titrant: { unit: 'mL', about: 'reference solution used with the oil', reads: 0.1 },
    blank: { unit: 'mL', about: 'reference solution used by the alcohol alone', default: 0, reads: 0.05 },
    reagent: { unit: 'text', about: 'alkali in the reference solution', choices: ALKALIS },
    strength: { unit: 'g/L', about: 'pure alkali in the reference solution', default: 1, readsPercent: 2 },
    oilDensity: { unit: 'g/mL', about: 'density of the oil', default: 0.92, reads: 0.005 },
  },
  outputs: {
    acidValue: { unit: 'mg KOH/g', about: 'acid value', digits: 3 },
    ffa: { unit: '%', about: 'free fatty acid by mass, counted as oleic acid', digits: 3 },
  },
  sources: ['en-14104', 'aocs-cd-3d-63', 'aocs-ca-5a-40'],
  run(inputs) {
    const oilDensityGPerMl = numberOf(inputs, 'oilDensity');
    requireRange('oil density', oilDensityGPerMl, 'g/mL', 0.85, 0.97, 'common-practice');
    const strength = molarStrength(numberOf(inputs, 'strength'), choiceOf(inputs, 'reagent', ALKALIS));
    const sampleG = numberOf(inputs, 'sample') * oilDensityGPerMl;
    const value = acidValue(numberOf(inputs, 'titrant'), numberOf(inputs, 'blank'), strength, sampleG);
    return { acidValue: value, ffa: freeFattyAcidPercent(value) };
  },
};
