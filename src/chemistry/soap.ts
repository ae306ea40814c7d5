import type { Calculation } from './calculation.ts';
import {
  ALKALIS,
  type Alkali,
  alkaliGPerMol,
  METALS,
  type Metal,
  metalGPerMol,
  oleateGPerMol,
} from './molar-masses.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

function molesPerKg(acidMl: number, blankMl: number, strengthMolPerL: number, sampleG: number): number {
  requireRange('acid used', acidMl, 'mL', 0, 100, 'common-practice');
  requireRange('blank', blankMl, 'mL', 0, acidMl, 'aocs-cc-17-79');
  requireRange('strength of the acid', strengthMolPerL, 'mol/L', 0.0005, 1, 'common-practice');
  requireRange('sample', sampleG, 'g', 0.5, 200, 'common-practice');
  return ((acidMl - blankMl) * strengthMolPerL) / sampleG;
}

/**
 * Soap in oil or fuel by titration to bromophenol blue, counted as oleate.   S = V * c * M * 1000 / m
 * @param acidMl           acid from the end of the alkali step to yellow [mL], scalar
 * @param blankMl          acid used by the solvent alone [mL], scalar
 * @param strengthMolPerL  strength of the acid [mol/L], scalar
 * @param sampleG          fuel weighed in [g], scalar
 * @param metal            Na or K [text]
 * @returns                soap [ppm], mg/kg, scalar
 * @throws OutOfRangeError  acid outside 0..100 mL, blank above it, strength outside 0.0005..1 mol/L,
 *                          sample outside 0.5..200 g
 * @source aocs-cc-17-79, calculation, as modified for fuel (from memory)
 * @example soapPpm(3, 0, 0.01, 10, 'K') // 961.7
 */
export function soapPpm(
  acidMl: number,
  blankMl: number,
  strengthMolPerL: number,
  sampleG: number,
  metal: Metal,
): number {
  return molesPerKg(acidMl, blankMl, strengthMolPerL, sampleG) * oleateGPerMol(metal) * 1000;
}

/**
 * Free alkali in oil or fuel by titration to phenolphthalein.   A = V * c * M * 1000 / m
 * @param acidMl           acid to the loss of pink [mL], scalar
 * @param blankMl          acid used by the solvent alone [mL], scalar
 * @param strengthMolPerL  strength of the acid [mol/L], scalar
 * @param sampleG          fuel weighed in [g], scalar
 * @param alkali           NaOH or KOH [text]
 * @returns                free alkali [ppm], mg/kg, scalar
 * @throws OutOfRangeError  acid outside 0..100 mL, blank above it, strength outside 0.0005..1 mol/L,
 *                          sample outside 0.5..200 g
 * @source aocs-cc-17-79, calculation, as modified for fuel (from memory)
 * @example freeAlkaliPpm(0.5, 0, 0.01, 10, 'KOH') // 28.05
 */
export function freeAlkaliPpm(
  acidMl: number,
  blankMl: number,
  strengthMolPerL: number,
  sampleG: number,
  alkali: Alkali,
): number {
  return molesPerKg(acidMl, blankMl, strengthMolPerL, sampleG) * alkaliGPerMol(alkali) * 1000;
}

/**
 * Sodium or potassium that a soap content carries.
 * @param soapContentPpm  soap counted as oleate [ppm], mg/kg, scalar
 * @param metal           Na or K [text]
 * @returns               metal [ppm], mg/kg, scalar
 * @throws OutOfRangeError  outside 0..1000000 ppm
 * @source worked-out, molar masses; astm-d6751-09 limits the metal to 5 mg/kg
 * @example metalInSoapPpm(41, 'K') // 5.0
 */
export function metalInSoapPpm(soapContentPpm: number, metal: Metal): number {
  requireRange('soap', soapContentPpm, 'ppm', 0, 1e6, 'worked-out');
  return (soapContentPpm * metalGPerMol(metal)) / oleateGPerMol(metal);
}

/**
 * Acid value that a soap content becomes when acid or a resin in acid form splits it.
 * @param soapContentPpm  soap counted as oleate [ppm], mg/kg, scalar
 * @param metal           Na or K [text]
 * @returns               acid value [mg KOH/g], scalar
 * @throws OutOfRangeError  outside 0..1000000 ppm
 * @source worked-out, one acid for each soap; ui-tn10 for the effect
 * @example acidValueOfSplitSoap(2857, 'K') // 0.50
 */
export function acidValueOfSplitSoap(soapContentPpm: number, metal: Metal): number {
  requireRange('soap', soapContentPpm, 'ppm', 0, 1e6, 'worked-out');
  return (soapContentPpm * alkaliGPerMol('KOH')) / oleateGPerMol(metal) / 1000;
}

export const soapCalculation: Calculation = {
  name: 'soap',
  about: 'Soap in a fuel from a titration with weak acid.',
  inputs: {
    sample: { unit: 'g', about: 'fuel in the flask', reads: 0.1 },
    acid: { unit: 'mL', about: 'acid used from the end of the alkali step', reads: 0.05 },
    blank: { unit: 'mL', about: 'acid used by the solvent alone', default: 0, reads: 0.02 },
    strength: { unit: 'mol/L', about: 'strength of the acid', default: 0.01, readsPercent: 2 },
    metal: { unit: 'text', about: 'metal of the alkali that was used', choices: METALS },
  },
  outputs: {
    soap: { unit: 'ppm', about: 'soap, counted as oleate', digits: 3 },
    metalContent: { unit: 'ppm', about: 'sodium or potassium that the soap carries', digits: 2 },
    acidNumberIfSplit: { unit: 'mg KOH/g', about: 'acid number this soap adds if it is split', digits: 2 },
  },
  sources: ['aocs-cc-17-79', 'worked-out', 'ui-tn10'],
  run(inputs) {
    const metal = choiceOf(inputs, 'metal', METALS);
    const soap = soapPpm(
      numberOf(inputs, 'acid'),
      numberOf(inputs, 'blank'),
      numberOf(inputs, 'strength'),
      numberOf(inputs, 'sample'),
      metal,
    );
    return {
      soap,
      metalContent: metalInSoapPpm(soap, metal),
      acidNumberIfSplit: acidValueOfSplitSoap(soap, metal),
    };
  },
};

export const alkaliCalculation: Calculation = {
  name: 'free-alkali',
  about: 'Free alkali in a fuel, the first step of the soap titration.',
  inputs: {
    sample: { unit: 'g', about: 'fuel in the flask', reads: 0.1 },
    acid: { unit: 'mL', about: 'acid used until the pink is gone', reads: 0.05 },
    blank: { unit: 'mL', about: 'acid used by the solvent alone', default: 0, reads: 0.02 },
    strength: { unit: 'mol/L', about: 'strength of the acid', default: 0.01, readsPercent: 2 },
    alkali: { unit: 'text', about: 'alkali that was used', choices: ALKALIS },
  },
  outputs: { freeAlkali: { unit: 'ppm', about: 'free alkali', digits: 3 } },
  sources: ['aocs-cc-17-79'],
  run(inputs) {
    const [acid, blank] = [numberOf(inputs, 'acid'), numberOf(inputs, 'blank')];
    const [strength, sample] = [numberOf(inputs, 'strength'), numberOf(inputs, 'sample')];
    return { freeAlkali: freeAlkaliPpm(acid, blank, strength, sample, choiceOf(inputs, 'alkali', ALKALIS)) };
  },
};
