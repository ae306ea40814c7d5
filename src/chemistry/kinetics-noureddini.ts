import { massActionLaw, type RateLaw, rateConstantAt } from './kinetics.ts';
import { requireRange } from './require-range.ts';

/**
 * Soybean oil, methanol 6 to 1, 0.20 % NaOH of the oil, 30 to 70 degC, hard stirring. Constants at 50 degC in
 * L/(mol min), read at second hand in a public script that names the paper; activation energies in cal/mol,
 * from memory.
 */
const SET = [
  { at50C: 0.05, energy: 13145 },
  { at50C: 0.11, energy: 9932 },
  { at50C: 0.215, energy: 19860 },
  { at50C: 1.228, energy: 14639 },
  { at50C: 0.242, energy: 6421 },
  { at50C: 0.007, energy: 9588 },
] as const;
export const NOUREDDINI_LOADING_PERCENT = 0.2;

/**
 * Rate law of Noureddini and Zhu. It comes to rest near 84 % ester at 6 to 1, below what makers with more
 * catalyst see, so it speaks for low catalyst only. That speed goes with the catalyst is our assumption.
 * @param temperatureK    reaction temperature [K], scalar
 * @param loadingPercent  catalyst as NaOH [%], of the oil mass, scalar
 * @returns               the law [mol/(L min)], record of RateLaw
 * @throws OutOfRangeError  temperature outside 303.15..343.15 K, loading outside 0.1..0.5 %
 * @source noureddini-1997, constants and activation energies; worked-out for the catalyst
 * @example noureddiniLaw(323.15, 0.2).steps(startingMixture(6, 872.16, 323.15))[0] // 0.2012
 */
export function noureddiniLaw(temperatureK: number, loadingPercent: number): RateLaw {
  requireRange('reaction temperature', temperatureK, 'K', 303.15, 343.15, 'noureddini-1997');
  requireRange('catalyst as NaOH', loadingPercent, '%', 0.1, 0.5, 'noureddini-1997');
  const scale = loadingPercent / NOUREDDINI_LOADING_PERCENT;
  const k = ({ at50C, energy }: { at50C: number; energy: number }): number =>
    scale * rateConstantAt(at50C, energy, 323.15, temperatureK);
  return massActionLaw([k(SET[0]), k(SET[1]), k(SET[2]), k(SET[3]), k(SET[4]), k(SET[5])]);
}
