import { BadInputError } from './bad-input-error.ts';
import { kelvinFromCelsius } from './celsius.ts';

export interface CoolingReading {
  timeS: number;
  temperatureK: number;
}

const SECONDS: Readonly<Record<string, number>> = { s: 1, min: 60, h: 3600 };
const READING = /^(\d+(?:\.\d+)?)\s*(s|min|h)\s*:\s*(-?\d+(?:\.\d+)?)\s*(degC|degF|K|°C|°F|C|F)$/;

function kelvinOf(value: number, unit: string): number {
  if (unit === 'K') return value;
  return kelvinFromCelsius(unit.endsWith('F') ? (value - 32) / 1.8 : value);
}

function badReadings(text: string): BadInputError {
  return new BadInputError(
    'readings',
    `"${text}" is not a list of readings. Give at least two, times rising, ` +
      'such as 0min:175degF,20min:160degF.',
  );
}

/**
 * Temperature readings of a cooling tank from their text form.
 * @param text  times in s, min or h and temperatures in degC, degF or K, such as 0min:175degF,20min:160degF
 *              [text]
 * @returns     times [s] and temperatures [K], list, times rising
 * @throws BadInputError  fewer than two readings, a reading that cannot be read, or times that do not rise
 * @source worked-out, unit conversion
 * @example readingsFromText('0min:80degC,1h:70degC')[1].temperatureK // 343.15
 */
export function readingsFromText(text: string): CoolingReading[] {
  const readings = text.split(',').map((part) => {
    const match = READING.exec(part.trim());
    if (!match) throw badReadings(text);
    const [, time, timeUnit, temperature, unit] = match as unknown as [
      string,
      string,
      string,
      string,
      string,
    ];
    return {
      timeS: Number(time) * (SECONDS[timeUnit] as number),
      temperatureK: kelvinOf(Number(temperature), unit),
    };
  });
  const rising = readings.every(
    (reading, index) => index === 0 || reading.timeS > (readings[index - 1]?.timeS ?? 0),
  );
  if (readings.length < 2 || !rising) throw badReadings(text);
  return readings;
}
