import { BadInputError } from './bad-input-error.ts';
import type { Calculation } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { type CoolingReading, readingsFromText } from './cooling-readings.ts';
import { numberOf, textOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

export interface CoolingLine {
  /** Time in which the distance to the air falls to 1/e. */
  timeConstantS: number;
  /** Temperature above the air at time zero of the readings. */
  startAboveAirK: number;
}

/**
 * Newton's cooling through readings: straight line of ln(T - T_air) against time, least squares.
 * @param readings  times [s] and temperatures [K], list, times rising
 * @param airK      air temperature [K], scalar
 * @returns         time constant [s] and temperature above the air at time zero [K], record of CoolingLine
 * @throws OutOfRangeError  a reading at or below the air or above 473.15 K
 * @throws BadInputError  readings that do not fall
 * @source handbook, Newton's law of cooling
 * @example coolingLine([{ timeS: 0, temperatureK: 352.59 }, { timeS: 10800, temperatureK: 326.27 }],
 *          294.26).timeConstantS // 1.80e4, which is 5 h
 */
export function coolingLine(readings: readonly CoolingReading[], airK: number): CoolingLine {
  for (const { temperatureK } of readings) {
    requireRange('reading', temperatureK, 'K', airK + 0.01, 473.15, 'worked-out');
  }
  const meanS = readings.reduce((sum, { timeS }) => sum + timeS, 0) / readings.length;
  const logs = readings.map(({ temperatureK }) => Math.log(temperatureK - airK));
  const meanLog = logs.reduce((sum, log) => sum + log, 0) / logs.length;
  let [across, along] = [0, 0];
  readings.forEach(({ timeS }, index) => {
    across += (timeS - meanS) * ((logs[index] ?? 0) - meanLog);
    along += (timeS - meanS) ** 2;
  });
  const slopePerS = across / along;
  if (!(slopePerS < 0)) {
    throw new BadInputError('readings', 'The readings do not fall. Give readings taken with the heater off.');
  }
  return { timeConstantS: -1 / slopePerS, startAboveAirK: Math.exp(meanLog - slopePerS * meanS) };
}

/**
 * Time in which a tank cools, Newton's law.   t = tau * ln((T0 - T_air) / (T - T_air))
 * @param fromK          start temperature [K], scalar
 * @param toK            end temperature [K], scalar
 * @param airK           air temperature [K], scalar
 * @param timeConstantS  time constant of the tank [s], scalar
 * @returns              time [s], scalar
 * @throws OutOfRangeError  start at or below the air, end not between air and start, time constant not above
 *                          0
 * @source handbook, Newton's law of cooling
 * @example coolingTimeS(352.594, 310.928, 294.261, 18000) // 22550, which is 6.26 h
 */
export function coolingTimeS(fromK: number, toK: number, airK: number, timeConstantS: number): number {
  requireRange('start temperature', fromK, 'K', airK + 0.01, 473.15, 'worked-out');
  requireRange('temperature wanted', toK, 'K', airK + 0.01, fromK, 'worked-out');
  requireRange('time constant', timeConstantS, 's', 1, Number.POSITIVE_INFINITY, 'worked-out');
  return timeConstantS * Math.log((fromK - airK) / (toK - airK));
}

/**
 * Time constant of a tank from what it holds and how well it loses heat.   tau = m cp / (U A)
 * @param massKg           liquid [kg], scalar
 * @param heatJPerKgK      heat capacity of the liquid [J/(kg K)], scalar
 * @param lossWPerK        heat loss for each kelvin above the air [W/K], scalar
 * @returns                time constant [s], scalar
 * @throws OutOfRangeError  mass, heat capacity or loss not above 0
 * @source handbook, Newton's law of cooling
 * @example tankTimeConstantS(126.2, 2100, 16) // 16564, which is 4.60 h
 */
export function tankTimeConstantS(massKg: number, heatJPerKgK: number, lossWPerK: number): number {
  requireRange('liquid', massKg, 'kg', 0.01, 100_000, 'common-practice');
  requireRange('heat capacity', heatJPerKgK, 'J/(kg K)', 500, 5000, 'handbook');
  requireRange('heat loss', lossWPerK, 'W/K', 0.01, 10_000, 'common-practice');
  return (massKg * heatJPerKgK) / lossWPerK;
}

export const coolCalculation: Calculation = {
  name: 'cool',
  about: 'When a cooling tank reaches a temperature, from readings taken so far with the heater off.',
  inputs: {
    readings: { unit: 'text', about: 'times and temperatures, such as 0min:175degF,20min:160degF' },
    ambient: { unit: 'degC', about: 'air temperature', reads: 2 },
    target: { unit: 'degC', about: 'temperature wanted' },
    lastOff: { unit: 'K', about: 'by how much the last reading may be off', default: 0, reads: 0.5 },
  },
  outputs: {
    minutes: { unit: 'min', about: 'when it gets there, on the clock of the readings', digits: 2 },
    remaining: { unit: 'min', about: 'minutes from the last reading', digits: 2 },
    timeConstant: { unit: 'h', about: 'time in which the distance to the air falls to a third', digits: 2 },
  },
  sources: ['handbook', 'worked-out'],
  run(inputs) {
    const airK = kelvinFromCelsius(numberOf(inputs, 'ambient'));
    const targetK = kelvinFromCelsius(numberOf(inputs, 'target'));
    const readings = readingsFromText(textOf(inputs, 'readings'));
    const last = readings[readings.length - 1] as CoolingReading;
    const lastK = last.temperatureK + numberOf(inputs, 'lastOff');
    requireRange('temperature wanted', targetK, 'K', airK + 0.01, lastK, 'worked-out');
    const line = coolingLine([...readings.slice(0, -1), { ...last, temperatureK: lastK }], airK);
    const reachedS = line.timeConstantS * Math.log(line.startAboveAirK / (targetK - airK));
    // The line need not go through the last reading, so a target just below that may lie a moment before it.
    const remainingS = Math.max(0, reachedS - last.timeS);
    return { minutes: reachedS / 60, remaining: remainingS / 60, timeConstant: line.timeConstantS / 3600 };
  },
};
