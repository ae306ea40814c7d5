import type { Calculation, InputValues } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { liquidDensityGPerMl, METHANOL_AT_20C_G_PER_ML, OIL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { METHANOL_G_PER_MOL } from './molar-masses.ts';
import { meanTriglycerideGPerMol, profileFromText } from './profile.ts';
import { numberOf, optionalNumberOf, textOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';
import { volumeAt20C } from './volume.ts';

/**
 * Moles of methanol for each mole of triglyceride, both measured at 20 degC. All oil is counted as
 * triglyceride.
 * @param methanolVolumeL         methanol [L], scalar
 * @param oilVolumeL              oil [L], scalar
 * @param triglycerideGPerMol     mean molar mass of the oil [g/mol], scalar
 * @returns                       ratio [mol/mol], scalar
 * @throws OutOfRangeError  oil outside 0.01..100000 L, methanol outside 0..1 of the oil volume
 * @source worked-out, moles from volume and density; liquid densities of liquid-density.ts
 * @example methanolRatio(20, 100, 872.16) // 4.68
 */
export function methanolRatio(
  methanolVolumeL: number,
  oilVolumeL: number,
  triglycerideGPerMol: number,
): number {
  requireVolumeL('oil volume', oilVolumeL);
  requireRange('methanol', methanolVolumeL, 'L', 0, oilVolumeL, 'common-practice');
  const methanolMol = (methanolVolumeL * METHANOL_AT_20C_G_PER_ML) / METHANOL_G_PER_MOL;
  return methanolMol / ((oilVolumeL * OIL_AT_20C_G_PER_ML) / triglycerideGPerMol);
}

/**
 * Methanol for a wanted molar ratio, both volumes at 20 degC. All oil is counted as triglyceride.
 * @param ratio                moles of methanol for each mole of triglyceride [mol/mol], scalar
 * @param oilVolumeL           oil [L], scalar
 * @param triglycerideGPerMol  mean molar mass of the oil [g/mol], scalar
 * @returns                    methanol [L], scalar
 * @throws OutOfRangeError  ratio outside 0.5..15, oil outside 0.01..100000 L
 * @source worked-out, moles from volume and density; freedman-1984 for the usual 6
 * @example methanolForRatioL(6, 100, 872.16) // 25.62
 */
export function methanolForRatioL(ratio: number, oilVolumeL: number, triglycerideGPerMol: number): number {
  requireRange('methanol ratio', ratio, 'mol/mol', 0.5, 15, 'common-practice');
  requireVolumeL('oil volume', oilVolumeL);
  const oilMol = (oilVolumeL * OIL_AT_20C_G_PER_ML) / triglycerideGPerMol;
  return (ratio * oilMol * METHANOL_G_PER_MOL) / METHANOL_AT_20C_G_PER_ML;
}

/**
 * Methanol as a share of the oil volume, both at 20 degC.
 * @param methanolPercent  methanol by volume of the oil [%], scalar
 * @param oilVolumeL       oil [L], scalar
 * @returns                methanol [L], scalar
 * @throws OutOfRangeError  share outside 1..60 %, oil outside 0.01..100000 L
 * @source common-practice, 18 to 25 % is usual
 * @example methanolForShareL(20, 100) // 20
 */
export function methanolForShareL(methanolPercent: number, oilVolumeL: number): number {
  requireRange('methanol share', methanolPercent, '%', 1, 60, 'common-practice');
  requireVolumeL('oil volume', oilVolumeL);
  return (oilVolumeL * methanolPercent) / 100;
}

/** Reads `methanol` (share) or `ratio` from the inputs; calculate() sees to it that exactly one is there. */
export function methanolFromInputs(
  inputs: InputValues,
  oilVolumeL: number,
  triglycerideGPerMol: number,
): number {
  const ratio = optionalNumberOf(inputs, 'ratio');
  if (ratio !== undefined) return methanolForRatioL(ratio, oilVolumeL, triglycerideGPerMol);
  return methanolForShareL(numberOf(inputs, 'methanol'), oilVolumeL);
}

export const methanolCalculation: Calculation = {
  name: 'methanol',
  about: 'Methanol for oil and methanol that are not at 20 °C, by volume and by mass.',
  inputs: {
    oil: { unit: 'L', about: 'oil volume as measured', readsPercent: 1 },
    oilTemperature: { unit: 'degC', about: 'oil temperature when it was measured', default: 20, reads: 2 },
    methanol: { unit: '%', about: 'methanol by volume of the oil, both at 20 °C', default: 20 },
    ratio: { unit: 'mol/mol', about: 'moles of methanol for each mole of oil', insteadOf: 'methanol' },
    methanolTemperature: {
      unit: 'degC',
      about: 'methanol temperature when it is measured',
      default: 20,
      reads: 2,
    },
    profile: { unit: 'text', about: 'kind of oil', default: 'soybean' },
  },
  outputs: {
    oilAt20: { unit: 'L', about: 'oil volume at 20 °C', digits: 4 },
    methanol: { unit: 'L', about: 'methanol to measure out at its own temperature', digits: 3 },
    mass: { unit: 'kg', about: 'methanol to weigh out', digits: 3 },
    ratio: { unit: 'mol/mol', about: 'moles of methanol for each mole of oil', digits: 3 },
  },
  sources: ['worked-out', 'handbook', 'nist-webbook', 'freedman-1984', 'common-practice'],
  run(inputs) {
    const molarMass = meanTriglycerideGPerMol(profileFromText(textOf(inputs, 'profile')));
    const oilK = kelvinFromCelsius(numberOf(inputs, 'oilTemperature'));
    const oilAt20 = volumeAt20C('oil', numberOf(inputs, 'oil'), oilK);
    const methanolAt20L = methanolFromInputs(inputs, oilAt20, molarMass);
    const mass = methanolAt20L * METHANOL_AT_20C_G_PER_ML;
    const methanolK = kelvinFromCelsius(numberOf(inputs, 'methanolTemperature'));
    const expansion =
      liquidDensityGPerMl('methanol', kelvinFromCelsius(20)) / liquidDensityGPerMl('methanol', methanolK);
    return {
      oilAt20,
      methanol: methanolAt20L * expansion,
      mass,
      ratio: methanolRatio(methanolAt20L, oilAt20, molarMass),
    };
  },
};
