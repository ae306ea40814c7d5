import type { Calculation } from './calculation.ts';
import { numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

/**
 * Better oil that brings a poor oil down to a wanted free fatty acid. Acid mixes linearly; equal densities.
 *   V_with = V * (F - target) / (target - F_with)
 * @param oilVolumeL      poor oil [L], scalar
 * @param ffaPercent      free fatty acid of the poor oil [%], scalar
 * @param withFfaPercent  free fatty acid of the better oil [%], scalar
 * @param targetPercent   free fatty acid wanted [%], scalar
 * @returns               better oil to add [L], scalar
 * @throws OutOfRangeError  oil outside 0.01..100000 L, acids outside 0..100 %, or a target that is not above
 *                          the better oil and at most that of the poor oil
 * @source worked-out, balance of the acid
 * @example blendWithL(30, 6, 1, 2.5) // 70
 */
export function blendWithL(
  oilVolumeL: number,
  ffaPercent: number,
  withFfaPercent: number,
  targetPercent: number,
): number {
  requireVolumeL('oil volume', oilVolumeL);
  requireRange('free fatty acid of the oil', ffaPercent, '%', 0, 100, 'worked-out');
  requireRange('free fatty acid of the better oil', withFfaPercent, '%', 0, targetPercent, 'worked-out');
  // A target within a hundredth of the better oil asks for endless amounts of it.
  requireRange('free fatty acid wanted', targetPercent, '%', withFfaPercent + 0.01, ffaPercent, 'worked-out');
  return (oilVolumeL * (ffaPercent - targetPercent)) / (targetPercent - withFfaPercent);
}

/**
 * Free fatty acid of two oils mixed, equal densities.   F = (V1 F1 + V2 F2) / (V1 + V2)
 * @param oilVolumeL       first oil [L], scalar
 * @param ffaPercent       free fatty acid of the first oil [%], scalar
 * @param withVolumeL      second oil [L], scalar
 * @param withFfaPercent   free fatty acid of the second oil [%], scalar
 * @returns                free fatty acid of the mixture [%], scalar
 * @throws OutOfRangeError  first oil outside 0.01..100000 L, second below 0, acids outside 0..100 %
 * @source worked-out, balance of the acid
 * @example blendedFfaPercent(30, 6, 70, 1) // 2.5
 */
export function blendedFfaPercent(
  oilVolumeL: number,
  ffaPercent: number,
  withVolumeL: number,
  withFfaPercent: number,
): number {
  requireVolumeL('oil volume', oilVolumeL);
  requireRange('second oil volume', withVolumeL, 'L', 0, Number.POSITIVE_INFINITY, 'worked-out');
  requireRange('free fatty acid of the oil', ffaPercent, '%', 0, 100, 'worked-out');
  requireRange('free fatty acid of the second oil', withFfaPercent, '%', 0, 100, 'worked-out');
  return (oilVolumeL * ffaPercent + withVolumeL * withFfaPercent) / (oilVolumeL + withVolumeL);
}

export const blendCalculation: Calculation = {
  name: 'blend',
  about: 'How much better oil brings a sour oil down to a wanted free fatty acid.',
  inputs: {
    oil: { unit: 'L', about: 'sour oil', readsPercent: 1 },
    ffa: { unit: '%', about: 'free fatty acid of the sour oil', reads: 0.1 },
    withFfa: { unit: '%', about: 'free fatty acid of the better oil', reads: 0.1 },
    target: { unit: '%', about: 'free fatty acid wanted' },
  },
  outputs: {
    with: { unit: 'L', about: 'better oil to add', digits: 3 },
    ffa: { unit: '%', about: 'free fatty acid of the blend', digits: 3 },
    share: { unit: '%', about: 'sour oil in the blend, by volume', digits: 3 },
  },
  sources: ['worked-out'],
  run(inputs) {
    const [oil, ffa, withFfa] = [
      numberOf(inputs, 'oil'),
      numberOf(inputs, 'ffa'),
      numberOf(inputs, 'withFfa'),
    ];
    const withL = blendWithL(oil, ffa, withFfa, numberOf(inputs, 'target'));
    return {
      with: withL,
      ffa: blendedFfaPercent(oil, ffa, withL, withFfa),
      share: (100 * oil) / (oil + withL),
    };
  },
};
