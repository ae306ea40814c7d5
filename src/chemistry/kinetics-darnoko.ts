import type { GlycerideMasses } from './ester-phase.ts';
import { type Mixture, type RateLaw, rateConstantAt } from './kinetics.ts';
import { requireRange } from './require-range.ts';

/**
 * Palm oil, methanol 6 to 1, 1 % KOH of the oil, 50 to 65 degC. Read in the abstract: second order up to 30
 * min, the lowest and the highest constant, 0.018 and 0.191 per (wt% min), and the activation energies 14.7,
 * 14.2 and 6.4 kcal/mol. From memory: ratio, catalyst and temperatures of the rates, and the constants at 50
 * degC, per (wt% min). Followed here to 90 min, three times as long as they found second order.
 */
const SET = [
  { at50C: 0.018, energy: 14700 },
  { at50C: 0.036, energy: 14200 },
  { at50C: 0.112, energy: 6400 },
] as const;
/** 1 % KOH in moles of NaOH. */
export const DARNOKO_LOADING_PERCENT = 0.7129;
const MEASURED_RATIO = 6;

/**
 * Rate law of Darnoko and Cheryan: each glyceride goes as the square of its mass percent, with no way back.
 * Ours are the chain of the three (what leaves one step feeds the next), the effect of methanol (as much
 * slower as less methanol is left than at 6 to 1), and that speed goes with the catalyst.
 * @param temperatureK    reaction temperature [K], scalar
 * @param loadingPercent  catalyst as NaOH [%], of the oil mass, scalar
 * @param masses          molar masses of the glycerides [g/mol], record of GlycerideMasses
 * @returns               the law [mol/(L min)], record of RateLaw
 * @throws OutOfRangeError  temperature outside 323.15..338.15 K, loading outside 0.25..1.2 %
 * @source darnoko-2000, constants and activation energies; worked-out for chain, methanol and catalyst
 * @example darnokoLaw(323.15, 0.7129, glycerideMasses(profileFromText('palm')))
 *          .steps(startingMixture(6, 845.13, 323.15))[0] // 1.511
 */
export function darnokoLaw(temperatureK: number, loadingPercent: number, masses: GlycerideMasses): RateLaw {
  requireRange('reaction temperature', temperatureK, 'K', 323.15, 338.15, 'darnoko-2000');
  requireRange('catalyst as NaOH', loadingPercent, '%', 0.25, 1.2, 'darnoko-2000');
  const scale = loadingPercent / DARNOKO_LOADING_PERCENT;
  const [k1, k2, k3] = SET.map(
    ({ at50C, energy }) => scale * rateConstantAt(at50C, energy, 323.15, temperatureK),
  ) as [number, number, number];
  /** Share of each glyceride that its step takes in a minute. */
  const shares = (m: Mixture): [number, number, number] => {
    const backbones = m.triglyceride + m.diglyceride + m.monoglyceride + m.glycerol;
    const methanolLeft = m.methanol / (MEASURED_RATIO * backbones - m.ester);
    const perMass = (100 * methanolLeft) / (backbones * masses.triglyceride);
    return [
      k1 * m.triglyceride * masses.triglyceride * perMass,
      k2 * m.diglyceride * masses.diglyceride * perMass,
      k3 * m.monoglyceride * masses.monoglyceride * perMass,
    ];
  };
  return {
    steps: (m) => {
      const [first, second, third] = shares(m);
      return [first * m.triglyceride, second * m.diglyceride, third * m.monoglyceride];
    },
    quickest: (m) => 2 * Math.max(...shares(m)),
  };
}
