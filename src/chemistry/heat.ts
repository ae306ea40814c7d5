import type { Calculation } from './calculation.ts';
import { celsiusFromKelvin, kelvinFromCelsius } from './celsius.ts';
import { liquidDensityGPerMl } from './liquid-density.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

const WATER_J_PER_KG_K = 4180;
/** Measured soy esters lie at 2.0 to 2.1, the equation of state for methyl oleate at 2.24 kJ/(kg K). */
const FUEL_J_PER_KG_K = 2100;
const JOULES_PER_KWH = 3.6e6;

function requireSpan(fromK: number, toK: number): void {
  requireRange('start temperature', fromK, 'K', 263.15, 403.15, 'choi-okos-1986');
  requireRange('end temperature', toK, 'K', fromK, 403.15, 'choi-okos-1986');
}

/**
 * Heat that warms oil, from the heat capacity of fats.   cp = 1984.2 + 1.4733 t - 4.8008e-3 t^2, t in degC,
 * integrated from start to end.
 * @param massKg  oil [kg], scalar
 * @param fromK   start temperature [K], scalar
 * @param toK     end temperature [K], scalar
 * @returns       heat [J], scalar
 * @throws OutOfRangeError  outside 263.15..403.15 K, or an end below the start
 * @source choi-okos-1986, fat (from memory; published span -40 to 150 degC)
 * @example oilHeatJ(139.07, 294.26, 333.15) // 1.101e7, or 3.058 kWh
 */
export function oilHeatJ(massKg: number, fromK: number, toK: number): number {
  requireSpan(fromK, toK);
  const perKg = (t: number): number => 1984.2 * t + (1.4733 / 2) * t ** 2 - (4.8008e-3 / 3) * t ** 3;
  return massKg * (perKg(celsiusFromKelvin(toK)) - perKg(celsiusFromKelvin(fromK)));
}

/**
 * Heat that warms fuel, with one heat capacity of 2100 J/(kg K); sources differ by 5 to 10 %.
 * @param massKg  fuel [kg], scalar
 * @param fromK   start temperature [K], scalar
 * @param toK     end temperature [K], scalar
 * @returns       heat [J], scalar
 * @throws OutOfRangeError  outside 263.15..403.15 K, or an end below the start
 * @source handbook, heat capacity of soy methyl ester (from memory)
 * @example fuelHeatJ(100, 293.15, 303.15) // 2.1e6
 */
export function fuelHeatJ(massKg: number, fromK: number, toK: number): number {
  requireSpan(fromK, toK);
  return massKg * FUEL_J_PER_KG_K * (toK - fromK);
}

/**
 * Heat that turns water into steam, a line through 2358 kJ/kg at 60 degC and 2256 kJ/kg at 100 degC.
 * @param massKg        water [kg], scalar
 * @param temperatureK  temperature at which it leaves [K], scalar
 * @returns             heat [J], scalar
 * @throws OutOfRangeError  outside 273.15..403.15 K
 * @source nist-webbook, latent heat of water
 * @example waterEvaporationHeatJ(1.391, 333.15) // 3.280e6, or 0.911 kWh
 */
export function waterEvaporationHeatJ(massKg: number, temperatureK: number): number {
  requireRange('temperature', temperatureK, 'K', 273.15, 403.15, 'nist-webbook');
  return massKg * (2_358_000 - 2550 * (celsiusFromKelvin(temperatureK) - 60));
}

/**
 * Time a heater needs for a given heat.   t = Q / (P - loss)
 * @param heatJ   heat wanted [J], scalar
 * @param powerW  heater power [W], scalar
 * @param lossW   mean heat loss while heating [W], scalar
 * @returns       time [s], scalar
 * @throws OutOfRangeError  power outside 10..200000 W, loss below 0 or above 95 % of the power
 * @source worked-out, energy balance
 * @example heatingTimeS(1.1009e7, 4500, 0) // 2446
 */
export function heatingTimeS(heatJ: number, powerW: number, lossW: number): number {
  requireRange('heater power', powerW, 'W', 10, 200_000, 'common-practice');
  requireRange('heat loss', lossW, 'W', 0, 0.95 * powerW, 'worked-out');
  return heatJ / (powerW - lossW);
}

export const heatCalculation: Calculation = {
  name: 'heat',
  about: 'How long a heater takes, and what it uses. Real tanks lose heat: allow 10 to 30 % more.',
  inputs: {
    volume: { unit: 'L', about: 'volume at the start temperature', readsPercent: 2 },
    from: { unit: 'degC', about: 'start temperature', reads: 2 },
    to: { unit: 'degC', about: 'end temperature', reads: 2 },
    power: { unit: 'W', about: 'heater power', readsPercent: 5 },
    water: { unit: '%', about: 'water in the liquid, by mass, warmed with it', default: 0 },
    loss: { unit: 'W', about: 'mean heat loss while heating', default: 0 },
    liquid: { unit: 'text', about: 'which liquid', choices: ['oil', 'fuel'], default: 'oil' },
  },
  outputs: {
    minutes: { unit: 'min', about: 'time to the end temperature', digits: 3 },
    energy: { unit: 'kWh', about: 'electricity for that', digits: 3 },
    minutesDried: { unit: 'min', about: 'time if all that water also boils off', digits: 3 },
    energyDried: { unit: 'kWh', about: 'electricity if all that water also boils off', digits: 3 },
  },
  sources: ['choi-okos-1986', 'fasina-2008', 'handbook', 'nist-webbook'],
  run(inputs) {
    const liquid = choiceOf(inputs, 'liquid', ['oil', 'fuel']);
    const [fromK, toK] = [
      kelvinFromCelsius(numberOf(inputs, 'from')),
      kelvinFromCelsius(numberOf(inputs, 'to')),
    ];
    const [volumeL, waterPercent] = [numberOf(inputs, 'volume'), numberOf(inputs, 'water')];
    const [powerW, lossW] = [numberOf(inputs, 'power'), numberOf(inputs, 'loss')];
    requireVolumeL('volume', volumeL);
    requireRange('water', waterPercent, '%', 0, 20, 'common-practice');
    const massKg = volumeL * liquidDensityGPerMl(liquid, fromK);
    const waterKg = (massKg * waterPercent) / 100;
    const warm = (liquid === 'oil' ? oilHeatJ : fuelHeatJ)(massKg - waterKg, fromK, toK);
    const heatJ = warm + waterKg * WATER_J_PER_KG_K * (toK - fromK);
    const seconds = heatingTimeS(heatJ, powerW, lossW);
    const secondsDried = heatingTimeS(heatJ + waterEvaporationHeatJ(waterKg, toK), powerW, lossW);
    return {
      minutes: seconds / 60,
      energy: (seconds * powerW) / JOULES_PER_KWH,
      minutesDried: secondsDried / 60,
      energyDried: (secondsDried * powerW) / JOULES_PER_KWH,
    };
  },
};
