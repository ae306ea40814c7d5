import type { Calculation } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { FUEL_AT_20C_G_PER_ML, METHANOL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { methanolVapourPressureKPa } from './methanol-boiling.ts';
import { METHANOL_G_PER_MOL, METHYL_OLEATE_G_PER_MOL } from './molar-masses.ts';
import { numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

// Our van Laar fit through two group-contribution estimates for methanol in methyl oleate. They differ by up
// to 25 % from each other and no measurement was found, so nothing here is better than that.
const VAN_LAAR = { dilute: -1.284, dilutePerK: 870.3, dense: 2.58 } as const;

/**
 * Activity coefficient of methanol in fuel, van Laar form.   ln g = A / (1 + A x / (B (1 - x)))^2
 * @param methanolMoleFraction  methanol in the fuel [mol/mol], scalar
 * @param temperatureK          fuel temperature [K], scalar
 * @returns                     activity coefficient [1], scalar, uncertain by 25 %
 * @throws OutOfRangeError  mole fraction outside 0..0.999, temperature outside 293.15..393.15 K
 * @source worked-out, fit to UNIFAC and modified UNIFAC (Dortmund) estimates
 * @example methanolActivityInFuel(0, 353.15) // 3.26, the two estimates give 3.69 and 2.96
 */
export function methanolActivityInFuel(methanolMoleFraction: number, temperatureK: number): number {
  requireRange('methanol', methanolMoleFraction, 'mol/mol', 0, 0.999, 'worked-out');
  requireRange('fuel temperature', temperatureK, 'K', 293.15, 393.15, 'worked-out');
  const a = VAN_LAAR.dilute + VAN_LAAR.dilutePerK / temperatureK;
  const x = methanolMoleFraction;
  return Math.exp(a / (1 + (a * x) / (VAN_LAAR.dense * (1 - x))) ** 2);
}

/**
 * Methanol that stays in the fuel for as long as a given methanol pressure stands over it.   x g Psat = p
 * @param temperatureK       fuel temperature [K], scalar
 * @param methanolOverKPa    methanol pressure over the fuel [kPa], scalar; about 101 in a closed, unswept
 *                           tank
 * @returns                  methanol in the fuel [%], mass percent, scalar, uncertain by 25 %; 100 when pure
 *                           methanol would not boil there either
 * @throws OutOfRangeError  temperature outside 293.15..393.15 K, pressure outside 0.1..120 kPa
 * @source worked-out, vapour-liquid balance; poling-2001 for the vapour pressure
 * @example methanolLeftAtBalancePercent(353.15, 101.325) // 3.00, the two estimates give 2.8 and 3.2
 */
export function methanolLeftAtBalancePercent(temperatureK: number, methanolOverKPa: number): number {
  requireRange('methanol pressure over the fuel', methanolOverKPa, 'kPa', 0.1, 120, 'common-practice');
  const pureKPa = methanolVapourPressureKPa(temperatureK);
  let [low, high] = [0, 0.999];
  const pressureAt = (x: number): number => x * methanolActivityInFuel(x, temperatureK) * pureKPa;
  if (pressureAt(high) <= methanolOverKPa) return 100;
  for (let round = 0; round < 60; round += 1) {
    const middle = (low + high) / 2;
    if (pressureAt(middle) < methanolOverKPa) low = middle;
    else high = middle;
  }
  const methanolG = low * METHANOL_G_PER_MOL;
  return (100 * methanolG) / (methanolG + (1 - low) * METHYL_OLEATE_G_PER_MOL);
}

/**
 * Methanol that leaves when its content falls, as liquid at 20 degC; volumes taken as additive.
 * @param fuelL        fuel with its methanol, at 20 degC [L], scalar
 * @param fromPercent  methanol before [%], mass percent, scalar
 * @param toPercent    methanol after [%], mass percent, scalar
 * @returns            methanol [L], scalar
 * @throws OutOfRangeError  fuel outside 0.01..100000 L, contents outside 0..30 %, or an after above the
 *                          before
 * @source worked-out, mass balance on the ester that stays
 * @example methanolRemovedL(100, 4, 0.2) // 4.2
 */
export function methanolRemovedL(fuelL: number, fromPercent: number, toPercent: number): number {
  requireVolumeL('fuel volume', fuelL);
  requireRange('methanol before', fromPercent, '%', 0, 30, 'common-practice');
  requireRange('methanol after', toPercent, '%', 0, fromPercent, 'worked-out');
  const [from, to] = [fromPercent / 100, toPercent / 100];
  const massKg = fuelL / (from / METHANOL_AT_20C_G_PER_ML + (1 - from) / FUEL_AT_20C_G_PER_ML);
  const esterKg = massKg * (1 - from);
  return (massKg * from - (esterKg * to) / (1 - to)) / METHANOL_AT_20C_G_PER_ML;
}

export const flashCalculation: Calculation = {
  name: 'flash',
  about: 'Methanol that heat alone leaves in the fuel, and what comes over.',
  inputs: {
    fuel: { unit: 'L', about: 'fuel with its methanol', readsPercent: 2 },
    methanol: { unit: '%', about: 'methanol in it by mass', readsPercent: 10 },
    temperature: { unit: 'degC', about: 'fuel temperature', reads: 2 },
    over: {
      unit: 'kPa',
      about: 'methanol pressure over the fuel: 101.325 in a closed unswept tank, less with a sweep or vacuum',
      default: 101.325,
    },
    model: {
      unit: '1',
      about: 'how far the vapour estimate may be off; leave it at 1',
      default: 1,
      readsPercent: 25,
    },
  },
  outputs: {
    methanolLeft: { unit: '%', about: 'methanol left by mass, once no more comes over', digits: 1 },
    removed: { unit: 'L', about: 'methanol that comes over, as liquid at 20 °C', digits: 2 },
  },
  sources: ['worked-out', 'poling-2001', 'en-14214'],
  run(inputs) {
    const [fuelL, before] = [numberOf(inputs, 'fuel'), numberOf(inputs, 'methanol')];
    const factor = numberOf(inputs, 'model');
    requireRange('model factor', factor, '1', 0.5, 2, 'worked-out');
    const temperatureK = kelvinFromCelsius(numberOf(inputs, 'temperature'));
    const balance = factor * methanolLeftAtBalancePercent(temperatureK, numberOf(inputs, 'over'));
    // Fuel that holds less than the balance does not boil and keeps what it has.
    const methanolLeft = Math.min(before, balance);
    return { methanolLeft, removed: methanolRemovedL(fuelL, before, methanolLeft) };
  },
};
