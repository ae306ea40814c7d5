import type { Calculation } from './calculation.ts';
import { celsiusFromKelvin, kelvinFromCelsius } from './celsius.ts';
import { FUEL_AT_20C_G_PER_ML, OIL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

/**
 * Water by weighing, heating until the mass is steady, and weighing again.   w = 100 (m0 - m1) / m0
 * An upper bound: methanol and other volatile matter leaves too, and a splash counts as water.
 * @param beforeG  sample before heating, without its dish [g], scalar
 * @param afterG   sample after heating, without its dish [g], scalar
 * @returns        water [%], mass percent, scalar
 * @throws OutOfRangeError  before outside 1..5000 g, after outside 0..before
 * @source common-practice, weigh, heat, weigh
 * @example waterByMassLossPercent(100, 99.62) // 0.38
 */
export function waterByMassLossPercent(beforeG: number, afterG: number): number {
  requireRange('mass before heating', beforeG, 'g', 1, 5000, 'common-practice');
  requireRange('mass after heating', afterG, 'g', 0, beforeG, 'common-practice');
  return (100 * (beforeG - afterG)) / beforeG;
}

/**
 * Water that fuel can hold dissolved, clear to the eye.   S = 1000 + 22.2 (t - 4), t in degC
 * A second source reads about 370 mg/kg higher at 10 degC and agrees at 50 degC.
 * @param temperatureK  fuel temperature [K], scalar
 * @returns             water at saturation [ppm], mg/kg, scalar
 * @throws OutOfRangeError  outside 277.15..308.15 K, the span that was measured
 * @source ui-moisture, saturation of methyl ester from 4 to 35 degC
 * @example waterInFuelAtSaturationPpm(293.15) // 1355
 */
export function waterInFuelAtSaturationPpm(temperatureK: number): number {
  requireRange(
    'fuel temperature',
    temperatureK,
    'K',
    kelvinFromCelsius(4),
    kelvinFromCelsius(35),
    'ui-moisture',
  );
  return 1000 + 22.2 * (celsiusFromKelvin(temperatureK) - 4);
}

/**
 * Water that vegetable oil can hold dissolved.   log10 S = 5.3318 - 684 / T
 * @param temperatureK  oil temperature [K], scalar
 * @returns             water at saturation [ppm], mg/kg, scalar; old measurements on cottonseed oil lie
 *                      within 15 %
 * @throws OutOfRangeError  outside 268.15..363.15 K
 * @source cigre-moisture, fit for natural-ester liquids (from memory)
 * @example waterInOilAtSaturationPpm(298.15) // 1091
 */
export function waterInOilAtSaturationPpm(temperatureK: number): number {
  requireRange('oil temperature', temperatureK, 'K', 268.15, 363.15, 'cigre-moisture');
  return 10 ** (5.3318 - 684 / temperatureK);
}

export const waterCalculation: Calculation = {
  name: 'water',
  about: 'Water in oil or fuel by weighing, heating and weighing again. It reads high when methanol is left.',
  inputs: {
    before: { unit: 'g', about: 'sample before heating, without its dish', reads: 0.01 },
    after: { unit: 'g', about: 'sample after heating, mass steady', reads: 0.01 },
  },
  outputs: { water: { unit: '%', about: 'water by mass, at most', digits: 2 } },
  sources: ['common-practice'],
  run(inputs) {
    return { water: waterByMassLossPercent(numberOf(inputs, 'before'), numberOf(inputs, 'after')) };
  },
};

export const waterReleaseCalculation: Calculation = {
  name: 'water-release',
  about: 'Water that clear warm fuel or oil, full of dissolved water, lets go when it cools.',
  inputs: {
    volume: { unit: 'L', about: 'volume at 20 °C', readsPercent: 2 },
    liquid: { unit: 'text', about: 'which liquid', choices: ['fuel', 'oil'], default: 'fuel' },
    from: { unit: 'degC', about: 'temperature at which it was clear', reads: 1 },
    to: { unit: 'degC', about: 'temperature it cools to', reads: 1 },
  },
  outputs: {
    freed: { unit: 'g', about: 'water set free, at most', digits: 2 },
    dissolvedAtStart: { unit: 'ppm', about: 'water it can hold at the start', digits: 2 },
    dissolvedAtEnd: { unit: 'ppm', about: 'water it can still hold at the end', digits: 2 },
  },
  sources: ['ui-moisture', 'cigre-moisture', 'en-14214', 'handbook'],
  run(inputs) {
    const [volumeL, fromK] = [numberOf(inputs, 'volume'), kelvinFromCelsius(numberOf(inputs, 'from'))];
    const toK = kelvinFromCelsius(numberOf(inputs, 'to'));
    const isFuel = choiceOf(inputs, 'liquid', ['fuel', 'oil']) === 'fuel';
    requireVolumeL('volume', volumeL);
    const atSaturation = isFuel ? waterInFuelAtSaturationPpm : waterInOilAtSaturationPpm;
    const [dissolvedAtStart, dissolvedAtEnd] = [atSaturation(fromK), atSaturation(toK)];
    requireRange('temperature it cools to', toK, 'K', 0, fromK, 'worked-out');
    const massKg = volumeL * (isFuel ? FUEL_AT_20C_G_PER_ML : OIL_AT_20C_G_PER_ML);
    return { freed: (massKg * (dissolvedAtStart - dissolvedAtEnd)) / 1000, dissolvedAtStart, dissolvedAtEnd };
  },
};
