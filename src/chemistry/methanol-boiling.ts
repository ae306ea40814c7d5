import type { Calculation } from './calculation.ts';
import { celsiusFromKelvin } from './celsius.ts';
import { numberOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

/**
 * Air pressure at an altitude in the standard atmosphere.   p = 101.325 * (1 - 2.25577e-5 * h)^5.25588
 * Weather moves it by about 3 %, which is about 0.7 K in the boiling point of methanol.
 * @param altitudeM  height above sea level [m], scalar
 * @returns          air pressure [kPa], scalar
 * @throws OutOfRangeError  outside -500..5000 m
 * @source us-standard-atmosphere-1976, lowest layer
 * @example airPressureKPa(1500) // 84.56
 */
export function airPressureKPa(altitudeM: number): number {
  requireRange('altitude', altitudeM, 'm', -500, 5000, 'us-standard-atmosphere-1976');
  return 101.325 * (1 - 2.25577e-5 * altitudeM) ** 5.25588;
}

/**
 * Vapour pressure of methanol, Antoine form.   log10(p / Pa) = 10.20277 - 1580.08 / (T - 33.65)
 * The published span ends at 356 K; it is carried on to 393 K because at 373.15 K it still gives the 353.7
 * kPa of the equation of state.
 * @param temperatureK  methanol temperature [K], scalar
 * @returns             vapour pressure [kPa], scalar
 * @throws OutOfRangeError  outside 263..393.15 K
 * @source poling-2001, appendix of Antoine constants
 * @example methanolVapourPressureKPa(293.15) // 13.00
 */
export function methanolVapourPressureKPa(temperatureK: number): number {
  requireRange('methanol temperature', temperatureK, 'K', 263, 393.15, 'poling-2001');
  return 10 ** (10.20277 - 1580.08 / (temperatureK - 33.65)) / 1000;
}

/**
 * Vapour pressure of methanol by a second published fit.   log10(p / bar) = 5.20409 - 1581.341 / (T - 33.50)
 * @param temperatureK  methanol temperature [K], scalar
 * @returns             vapour pressure [kPa], scalar
 * @throws OutOfRangeError  outside 288..357 K, the span of the fit
 * @source ambrose-sprake-1970, as given in nist-webbook
 * @example methanolVapourPressureByAmbroseKPa(313.15) // 35.43
 */
export function methanolVapourPressureByAmbroseKPa(temperatureK: number): number {
  requireRange('methanol temperature', temperatureK, 'K', 288, 357, 'ambrose-sprake-1970');
  return 10 ** (5.20409 - 1581.341 / (temperatureK - 33.5)) * 100;
}

/**
 * Temperature at which methanol boils under a given pressure: the Antoine form solved for T.
 * @param pressureKPa  pressure over the methanol [kPa], scalar
 * @returns            boiling point [K], scalar
 * @throws OutOfRangeError  outside 20..120 kPa
 * @source poling-2001, appendix of Antoine constants
 * @example methanolBoilingPointK(101.325) // 337.69, or 64.5 degC
 */
export function methanolBoilingPointK(pressureKPa: number): number {
  requireRange('pressure', pressureKPa, 'kPa', 20, 120, 'poling-2001');
  return 1580.08 / (10.20277 - Math.log10(pressureKPa * 1000)) + 33.65;
}

export const boilingCalculation: Calculation = {
  name: 'boiling',
  about: 'Where methanol boils at this altitude.',
  inputs: {
    altitude: { unit: 'm', about: 'height above sea level', default: 0, reads: 50 },
    weather: {
      unit: 'kPa',
      about: 'air pressure above or below the usual, by the weather',
      default: 0,
      reads: 3,
    },
  },
  outputs: {
    boilingPoint: { unit: 'degC', about: 'boiling point of methanol', digits: 3 },
    pressure: { unit: 'kPa', about: 'air pressure', digits: 3 },
  },
  sources: ['us-standard-atmosphere-1976', 'poling-2001', 'ambrose-sprake-1970'],
  run(inputs) {
    const pressure = airPressureKPa(numberOf(inputs, 'altitude')) + numberOf(inputs, 'weather');
    return { boilingPoint: celsiusFromKelvin(methanolBoilingPointK(pressure)), pressure };
  },
};
