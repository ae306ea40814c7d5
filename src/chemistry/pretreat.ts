import type { Calculation } from './calculation.ts';
import { METHANOL_AT_20C_G_PER_ML, OIL_AT_20C_G_PER_ML } from './liquid-density.ts';
import {
  alkaliGPerMol,
  OLEIC_ACID_G_PER_MOL,
  SULFURIC_ACID_G_PER_MOL,
  WATER_G_PER_MOL,
} from './molar-masses.ts';
import { numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

const METHANOL_G_PER_G_FFA = 2.25;
const ACID_G_PER_G_FFA = 0.05;
const ACID_AS_BOUGHT = { massFraction: 0.98, densityGPerMl: 1.84 } as const;

/**
 * Methanol for the acid treatment of a sour oil: 2.25 g for each g of free fatty acid.
 * @param ffaG  free fatty acid in the oil [g], scalar
 * @returns     methanol [g], scalar
 * @throws OutOfRangeError  below 0 g
 * @source nrel-2004, acid pretreatment (from memory)
 * @example pretreatMethanolG(10000) // 22500
 */
export function pretreatMethanolG(ffaG: number): number {
  requireRange('free fatty acid', ffaG, 'g', 0, Number.POSITIVE_INFINITY, 'nrel-2004');
  return METHANOL_G_PER_G_FFA * ffaG;
}

/**
 * Pure sulfuric acid for the acid treatment of a sour oil: 0.05 g for each g of free fatty acid.
 * @param ffaG  free fatty acid in the oil [g], scalar
 * @returns     sulfuric acid, counted as pure [g], scalar
 * @throws OutOfRangeError  below 0 g
 * @source nrel-2004, acid pretreatment (from memory)
 * @example pretreatAcidG(10000) // 500
 */
export function pretreatAcidG(ffaG: number): number {
  requireRange('free fatty acid', ffaG, 'g', 0, Number.POSITIVE_INFINITY, 'nrel-2004');
  return ACID_G_PER_G_FFA * ffaG;
}

/**
 * Water made when free fatty acid turns into ester, mole for mole.
 * @param ffaG  free fatty acid turned into ester, counted as oleic [g], scalar
 * @returns     water [g], scalar
 * @throws OutOfRangeError  below 0 g
 * @source worked-out, stoichiometry
 * @example esterificationWaterG(1000) // 63.8
 */
export function esterificationWaterG(ffaG: number): number {
  requireRange('free fatty acid', ffaG, 'g', 0, Number.POSITIVE_INFINITY, 'worked-out');
  return (ffaG * WATER_G_PER_MOL) / OLEIC_ACID_G_PER_MOL;
}

export const pretreatCalculation: Calculation = {
  name: 'pretreat',
  about: 'Methanol and sulfuric acid for the acid treatment of a sour oil. For experienced makers only.',
  inputs: {
    oil: { unit: 'L', about: 'oil volume at 20 °C', readsPercent: 1 },
    ffa: { unit: '%', about: 'free fatty acid of the oil', reads: 0.2 },
    target: { unit: '%', about: 'free fatty acid wanted after the treatment' },
  },
  outputs: {
    methanol: { unit: 'L', about: 'methanol at 20 °C', digits: 3 },
    acid: { unit: 'mL', about: 'sulfuric acid of 98 %', digits: 2 },
    water: { unit: 'g', about: 'water the treatment makes, to be taken off before alkali', digits: 3 },
    acidMass: { unit: 'g', about: 'sulfuric acid, counted as pure', digits: 2 },
    neutralisingKoh: {
      unit: 'g',
      about: 'pure KOH that the acid will eat later if it all stays in the oil',
      digits: 2,
    },
  },
  sources: ['nrel-2004', 'canakci-2001', 'worked-out'],
  run(inputs) {
    const oilVolumeL = numberOf(inputs, 'oil');
    const [ffa, target] = [numberOf(inputs, 'ffa'), numberOf(inputs, 'target')];
    requireVolumeL('oil volume', oilVolumeL);
    requireRange('free fatty acid of the oil', ffa, '%', 1, 40, 'canakci-2001');
    requireRange('free fatty acid wanted', target, '%', 0.25, ffa, 'canakci-2001');
    const oilG = oilVolumeL * OIL_AT_20C_G_PER_ML * 1000;
    const ffaG = (oilG * ffa) / 100;
    const acidMass = pretreatAcidG(ffaG);
    return {
      methanol: pretreatMethanolG(ffaG) / METHANOL_AT_20C_G_PER_ML / 1000,
      acid: acidMass / ACID_AS_BOUGHT.massFraction / ACID_AS_BOUGHT.densityGPerMl,
      water: esterificationWaterG((oilG * (ffa - target)) / 100),
      acidMass,
      neutralisingKoh: (2 * acidMass * alkaliGPerMol('KOH')) / SULFURIC_ACID_G_PER_MOL,
    };
  },
};
