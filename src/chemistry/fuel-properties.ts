import { carbonAtoms, doubleBonds, FATTY_ACIDS, type FattyAcid, fattyAcidGPerMol } from './fatty-acids.ts';
import { METHANOL_G_PER_MOL, WATER_G_PER_MOL } from './molar-masses.ts';
import type { Profile } from './profile.ts';
import { requireRange } from './require-range.ts';

const percentOf = (profile: Profile, acid: FattyAcid): number => 100 * (profile[acid] ?? 0);

/** Iodine taken up by one mass percent of each acid in the oil, AOCS Cd 1c-85. */
const IODINE_FACTOR: Partial<Record<FattyAcid, number>> = {
  'C16:1': 0.95,
  'C18:1': 0.86,
  'C18:2': 1.732,
  'C18:3': 2.616,
  'C20:1': 0.785,
  'C22:1': 0.723,
};
const IODINE_G_PER_MOL = 253.809;

/**
 * Saponification value of a methyl ester.   SV = 56105 / M
 * @param esterGPerMol  mean molar mass of the methyl esters [g/mol], scalar
 * @returns             saponification value [mg KOH/g], scalar
 * @throws OutOfRangeError  outside 150..400 g/mol
 * @source worked-out, one KOH for each ester
 * @example esterSaponificationValue(292.06) // 192.1
 */
export function esterSaponificationValue(esterGPerMol: number): number {
  requireRange('molar mass of the ester', esterGPerMol, 'g/mol', 150, 400, 'worked-out');
  return 56_105 / esterGPerMol;
}

/**
 * Iodine value from the fatty acids with the factors of the standard method.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        iodine value [g I2/100 g], scalar
 * @source aocs-cd-1c-85, factors for triglycerides; en-14214 annex B rests on them
 * @example iodineValueByFactors(profileFromText('soybean')) // 132.9
 */
export function iodineValueByFactors(profile: Profile): number {
  return FATTY_ACIDS.reduce((sum, acid) => sum + (IODINE_FACTOR[acid] ?? 0) * percentOf(profile, acid), 0);
}

/**
 * Iodine value of the methyl esters from their double bonds: one molecule of iodine for each.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        iodine value [g I2/100 g], scalar
 * @source worked-out, stoichiometry
 * @example iodineValueOfEsters(profileFromText('soybean')) // 132.3
 */
export function iodineValueOfEsters(profile: Profile): number {
  return FATTY_ACIDS.reduce((sum, acid) => {
    const esterGPerMol = fattyAcidGPerMol(acid) + METHANOL_G_PER_MOL - WATER_G_PER_MOL;
    return sum + (percentOf(profile, acid) * IODINE_G_PER_MOL * doubleBonds(acid)) / esterGPerMol;
  }, 0);
}

/**
 * Degree of unsaturation: mass percent of acids weighted by their double bonds.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        degree of unsaturation [%], scalar
 * @source wang-2012, definition
 * @example degreeOfUnsaturation(profileFromText('soybean')) // 153.5
 */
export function degreeOfUnsaturation(profile: Profile): number {
  return FATTY_ACIDS.reduce((sum, acid) => sum + doubleBonds(acid) * percentOf(profile, acid), 0);
}

/**
 * Cetane number by Krisnangkura.   CN = 46.3 + 5458 / SV - 0.225 IV
 * Reads 1 to 7 low for soybean and canola esters.
 * @param saponificationValue  of the ester [mg KOH/g], scalar
 * @param iodineValue          of the ester [g I2/100 g], scalar
 * @returns                    cetane number [1], scalar, within about 5 of an engine
 * @throws OutOfRangeError  saponification value outside 160..280, iodine value outside 0..200
 * @source krisnangkura-1986, equation for methyl esters (from memory)
 * @example cetaneNumberByKrisnangkura(192.1, 132.3) // 44.9
 */
export function cetaneNumberByKrisnangkura(saponificationValue: number, iodineValue: number): number {
  requireRange('saponification value', saponificationValue, 'mg KOH/g', 160, 280, 'krisnangkura-1986');
  requireRange('iodine value', iodineValue, 'g I2/100 g', 0, 200, 'krisnangkura-1986');
  return 46.3 + 5458 / saponificationValue - 0.225 * iodineValue;
}

/**
 * Cetane number by Wang and others.   CN = 65.0958 - 0.1209 DU
 * @param unsaturationPercent  degree of unsaturation [%], scalar
 * @returns                    cetane number [1], scalar; reads low for palm
 * @throws OutOfRangeError  outside 0..200 %
 * @source wang-2012, regression
 * @example cetaneNumberByWang(153.5) // 46.5
 */
export function cetaneNumberByWang(unsaturationPercent: number): number {
  requireRange('degree of unsaturation', unsaturationPercent, '%', 0, 200, 'wang-2012');
  return 65.0958 - 0.1209 * unsaturationPercent;
}

/**
 * Oxidation stability of untreated ester by Wang and others.   IP = 7.770 - 0.0384 DU; rough.
 * @param unsaturationPercent  degree of unsaturation [%], scalar
 * @returns                    induction period at 110 degC [h], scalar
 * @throws OutOfRangeError  outside 0..200 %
 * @source wang-2012, regression
 * @example inductionPeriodByWangH(153.5) // 1.87
 */
export function inductionPeriodByWangH(unsaturationPercent: number): number {
  requireRange('degree of unsaturation', unsaturationPercent, '%', 0, 200, 'wang-2012');
  return 7.77 - 0.0384 * unsaturationPercent;
}

/**
 * Share of a profile that the cold-flow lines do not know: acids shorter than C16.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        acids of fewer than 16 carbons [%], mass percent, scalar
 * @source worked-out, sum
 * @example shortAcidsPercent(profileFromText('coconut')) // 80.2
 */
export function shortAcidsPercent(profile: Profile): number {
  return FATTY_ACIDS.reduce((sum, acid) => sum + (carbonAtoms(acid) < 16 ? percentOf(profile, acid) : 0), 0);
}

/**
 * Above this share of short acids the cold-flow lines say nothing; coconut and palm kernel lie far above it.
 */
export const MOST_SHORT_ACIDS_PERCENT = 15;

/**
 * Cloud point by Sarin and others.   CP = 0.526 w(C16:0) - 4.992
 * The line cannot see the stearate of tallow or lard nor the long acids of peanut: there it reads too cold.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        cloud point [K], scalar, within about 4 K for C16 to C18 oils
 * @throws OutOfRangeError  more than 15 % of acids shorter than C16
 * @source sarin-2009-cloud, palmitate line (from memory)
 * @example cloudPointBySarinK(profileFromText('soybean')) // 274.0, or 0.9 degC
 */
export function cloudPointBySarinK(profile: Profile): number {
  const short = shortAcidsPercent(profile);
  requireRange('acids shorter than C16', short, '%', 0, MOST_SHORT_ACIDS_PERCENT, 'sarin-2009-cloud');
  return 273.15 + 0.526 * percentOf(profile, 'C16:0') - 4.992;
}

/**
 * Cold filter plugging point by Ramos and others.   CFPP = 3.1417 LCSF - 16.477, with
 * LCSF = 0.1 C16 + 0.5 C18 + 1 C20 + 1.5 C22 + 2 C24 of the saturated acids in mass percent.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        cold filter plugging point [K], scalar, within about 6 K
 * @throws OutOfRangeError  more than 15 % of acids shorter than C16
 * @source ramos-2009, weights looked up, line from memory
 * @example coldFilterPluggingByRamosK(profileFromText('soybean')) // 266.5, or -6.6 degC
 */
export function coldFilterPluggingByRamosK(profile: Profile): number {
  const short = shortAcidsPercent(profile);
  requireRange('acids shorter than C16', short, '%', 0, MOST_SHORT_ACIDS_PERCENT, 'ramos-2009');
  const weights: Partial<Record<FattyAcid, number>> = {
    'C16:0': 0.1,
    'C18:0': 0.5,
    'C20:0': 1,
    'C22:0': 1.5,
    'C24:0': 2,
  };
  const longChain = FATTY_ACIDS.reduce(
    (sum, acid) => sum + (weights[acid] ?? 0) * percentOf(profile, acid),
    0,
  );
  return 273.15 + 3.1417 * longChain - 16.477;
}

/**
 * Higher heating value by Demirbas.   HHV = 49.43 - 0.041 SV - 0.015 IV
 * @param saponificationValue  of the ester [mg KOH/g], scalar
 * @param iodineValue          of the ester [g I2/100 g], scalar
 * @returns                    higher heating value [MJ/kg], scalar
 * @throws OutOfRangeError  saponification value outside 160..280, iodine value outside 0..200
 * @source demirbas-1998, regression (from memory)
 * @example higherHeatingValueMJPerKg(192.1, 132.3) // 39.57
 */
export function higherHeatingValueMJPerKg(saponificationValue: number, iodineValue: number): number {
  requireRange('saponification value', saponificationValue, 'mg KOH/g', 160, 280, 'demirbas-1998');
  requireRange('iodine value', iodineValue, 'g I2/100 g', 0, 200, 'demirbas-1998');
  return 49.43 - 0.041 * saponificationValue - 0.015 * iodineValue;
}
