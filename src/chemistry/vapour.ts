import type { Calculation } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { liquidDensityGPerMl } from './liquid-density.ts';
import { methanolVapourPressureKPa } from './methanol-boiling.ts';
import { METHANOL_G_PER_MOL } from './molar-masses.ts';
import { numberOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

const ROOM_K = kelvinFromCelsius(25);
const MOLAR_VOLUME_L = 24.465;
/** Air that holds all the methanol it can at 25 degC, as a volume fraction. */
const SATURATED = methanolVapourPressureKPa(ROOM_K) / 101.325;
/** Lower flammable limit, volume fraction. */
const LOWER_FLAMMABLE_LIMIT = 0.06;

/**
 * Methanol vapour in a closed room at 25 degC if all of the spill evaporates and mixes evenly.
 * Real air is not mixed: over the spill and near the floor it is far richer, and can burn long before the
 * mean can.
 * @param liquidMl  methanol spilt [mL], scalar
 * @param roomM3    air in the room [m3], scalar
 * @returns         volume fraction of vapour [1], scalar; at most that of saturated air
 * @throws OutOfRangeError  liquid outside 0..1000000 mL, room outside 1..100000 m3
 * @source worked-out, ideal gas; nrc-lcss-methanol and nist-webbook for the liquid
 * @example vapourFraction(749.5, 30) // 0.015, a quarter of the lower flammable limit
 */
export function vapourFraction(liquidMl: number, roomM3: number): number {
  requireRange('methanol spilt', liquidMl, 'mL', 0, 1_000_000, 'common-practice');
  requireRange('room', roomM3, 'm3', 1, 100_000, 'common-practice');
  const vapourL = (liquidMl * liquidDensityGPerMl('methanol', ROOM_K) * MOLAR_VOLUME_L) / METHANOL_G_PER_MOL;
  return Math.min(SATURATED, vapourL / 1000 / roomM3);
}

/**
 * What air change leaves of a vapour that evaporates evenly over a time, at its end, mixed evenly.
 *   share = (1 - exp(-n t)) / (n t)
 * @param airChangesPerH  fresh air, room volumes for each hour [1/h], scalar
 * @param durationH       time over which the spill evaporates [h], scalar
 * @returns               share of the closed-room figure [1], scalar
 * @throws OutOfRangeError  air changes outside 0..100 1/h, duration outside 0..24 h
 * @source worked-out, well-mixed room
 * @example shareLeftByAirChange(6, 1) // 0.166
 */
export function shareLeftByAirChange(airChangesPerH: number, durationH: number): number {
  requireRange('air changes', airChangesPerH, '1/h', 0, 100, 'common-practice');
  requireRange('evaporation time', durationH, 'h', 0, 24, 'common-practice');
  const changes = airChangesPerH * durationH;
  // Below this the formula loses its digits and is 1 within them.
  return changes < 1e-9 ? 1 : -Math.expm1(-changes) / changes;
}

export const vapourCalculation: Calculation = {
  name: 'vapour',
  about:
    'Methanol vapour in a room after a spill, evenly mixed at 25 °C. Pools and low spots are far richer.',
  inputs: {
    liquid: { unit: 'mL', about: 'methanol spilt', readsPercent: 20 },
    room: { unit: 'm3', about: 'air in the room', readsPercent: 10 },
    airChanges: { unit: '1/h', about: 'fresh air, room volumes for each hour', default: 0, readsPercent: 30 },
    evaporation: { unit: 'min', about: 'time over which the spill evaporates', default: 60 },
  },
  outputs: {
    lflPercent: {
      unit: '%',
      about: 'share of the lower flammable limit; leave the room well before 25 %',
      digits: 2,
    },
    lflAtOnce: { unit: '%', about: 'share of that limit if the spill evaporates at once', digits: 2 },
    ppm: { unit: 'ppm', about: 'vapour by volume; the exposure limit for a working day is 200', digits: 2 },
  },
  sources: [
    'worked-out',
    'nfpa-497',
    'niosh-pocket-guide',
    'nrc-lcss-methanol',
    'nist-webbook',
    'poling-2001',
  ],
  run(inputs) {
    const closed = vapourFraction(numberOf(inputs, 'liquid'), numberOf(inputs, 'room'));
    const share = shareLeftByAirChange(numberOf(inputs, 'airChanges'), numberOf(inputs, 'evaporation') / 60);
    const fraction = closed * share;
    return {
      lflPercent: (100 * fraction) / LOWER_FLAMMABLE_LIMIT,
      ppm: fraction * 1e6,
      lflAtOnce: (100 * closed) / LOWER_FLAMMABLE_LIMIT,
    };
  },
};
