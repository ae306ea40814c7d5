import type { Calculation } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { LIQUIDS, type Liquid, liquidDensityGPerMl } from './liquid-density.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requireVolumeL } from './require-range.ts';

/**
 * Volume that a warm liquid has once it is at 20 degC: the mass stays, the density changes.
 * @param liquid        oil, fuel or methanol [text]
 * @param volumeL       volume as measured [L], scalar
 * @param temperatureK  temperature when it was measured [K], scalar
 * @returns             volume at 20 degC [L], scalar
 * @throws OutOfRangeError  volume outside 0.01..100000 L, or temperature outside the density fit
 * @source handbook for oil, en-14214 annex for fuel, nist-webbook for methanol
 * @example volumeAt20C('oil', 100, 328.15) // 97.56
 */
export function volumeAt20C(liquid: Liquid, volumeL: number, temperatureK: number): number {
  requireVolumeL(`${liquid} volume`, volumeL);
  const cold = liquidDensityGPerMl(liquid, kelvinFromCelsius(20));
  return (volumeL * liquidDensityGPerMl(liquid, temperatureK)) / cold;
}

export const volumeCalculation: Calculation = {
  name: 'volume',
  about: 'What a volume measured warm or cold is at 20 °C, and what it weighs.',
  inputs: {
    volume: { unit: 'L', about: 'volume as read', readsPercent: 1 },
    temperature: { unit: 'degC', about: 'temperature of the liquid when it was read', reads: 2 },
    liquid: { unit: 'text', about: 'which liquid', choices: LIQUIDS, default: 'oil' },
  },
  outputs: {
    volumeAt20: { unit: 'L', about: 'volume at 20 °C', digits: 4 },
    mass: { unit: 'kg', about: 'mass', digits: 3 },
  },
  sources: ['handbook', 'en-14214', 'nist-webbook'],
  run(inputs) {
    const liquid = choiceOf(inputs, 'liquid', LIQUIDS);
    const volumeL = numberOf(inputs, 'volume');
    const temperatureK = kelvinFromCelsius(numberOf(inputs, 'temperature'));
    return {
      volumeAt20: volumeAt20C(liquid, volumeL, temperatureK),
      mass: volumeL * liquidDensityGPerMl(liquid, temperatureK),
    };
  },
};
