import { massActionLaw, type RateLaw } from './kinetics.ts';
import { requireRange } from './require-range.ts';

/**
 * Palm oil after an acid first stage, methanol 6 to 1, at 60 degC. Constants in L/(mol min), read at second
 * hand in a public script that names the paper. From memory: 55 to 65 degC, where temperature hardly
 * mattered, and NaOH at 0.6 or 1 % of the oil; memories differ, so the middle is taken.
 */
// biome-ignore lint/suspicious/noApproximativeNumericConstant: a measured constant, not the logarithm of 10
const AT_60C = [2.6, 0.248, 1.186, 0.227, 2.303, 0.022] as const;
export const JANSRI_LOADING_PERCENT = 0.8;

/**
 * Rate law of Jansri and others. That speed goes with the catalyst is our assumption. Used down to 53 degC
 * with fading weight, so that one degree on the thermometer does not make the forecast jump.
 * @param temperatureK    reaction temperature [K], scalar
 * @param loadingPercent  catalyst as NaOH [%], of the oil mass, scalar
 * @returns               the law [mol/(L min)], record of RateLaw
 * @throws OutOfRangeError  temperature outside 326.15..338.15 K, loading outside 0.25..1.2 %
 * @source jansri-2011, constants; worked-out for the catalyst
 * @example jansriLaw(333.15, 0.8).steps(startingMixture(6, 872.16, 333.15))[0] // 10.29
 */
export function jansriLaw(temperatureK: number, loadingPercent: number): RateLaw {
  requireRange('reaction temperature', temperatureK, 'K', 326.15, 338.15, 'jansri-2011');
  requireRange('catalyst as NaOH', loadingPercent, '%', 0.25, 1.2, 'jansri-2011');
  const scale = loadingPercent / JANSRI_LOADING_PERCENT;
  const [k1, k2, k3, k4, k5, k6] = AT_60C;
  return massActionLaw([scale * k1, scale * k2, scale * k3, scale * k4, scale * k5, scale * k6]);
}
