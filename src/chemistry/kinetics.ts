import { liquidDensityGPerMl } from './liquid-density.ts';
import { METHANOL_G_PER_MOL } from './molar-masses.ts';
import { requireRange } from './require-range.ts';

/** What swims in one litre of the reacting liquid, mol/L. */
export interface Mixture {
  triglyceride: number;
  diglyceride: number;
  monoglyceride: number;
  ester: number;
  glycerol: number;
  methanol: number;
}

/**
 * Net speed of the three steps: oil to diglyceride, that to monoglyceride, that to glycerol. Each turns one
 * methanol into one ester.
 */
export type Steps = readonly [number, number, number];

/** k1 to k6 of three reversible steps, forward and back by turns, L/(mol min). */
export type SixConstants = readonly [number, number, number, number, number, number];

export interface RateLaw {
  /** Net speed of each step, mol/(L min). */
  steps(mixture: Mixture): Steps;
  /** About how fast the quickest change dies away here, 1/min; it sets the step of the integration. */
  quickest(mixture: Mixture): number;
}

const GAS_CAL_PER_MOL_K = 1.987204;
/** Share of the quickest time that one step spans; composition is then good to 0.001 %. */
const STEP = 0.2;
const DENSITIES_END_K = 333.15;
const STANDSTILL_MOL_PER_L_MIN = 1e-11;

/**
 * Rate constant at another temperature.   k = k0 exp(-Ea/R (1/T - 1/T0))
 * @param atReference      rate constant at the reference [its own unit], scalar
 * @param energyCalPerMol  activation energy [cal/mol], scalar
 * @param referenceK       reference temperature [K], scalar
 * @param temperatureK     temperature wanted [K], scalar
 * @returns                rate constant [the same unit], scalar
 * @throws OutOfRangeError  a temperature outside 273.15..373.15 K
 * @source handbook, Arrhenius law
 * @example rateConstantAt(0.05, 13145, 323.15, 338.15) // 0.124
 */
export function rateConstantAt(
  atReference: number,
  energyCalPerMol: number,
  referenceK: number,
  temperatureK: number,
): number {
  requireRange('reference temperature', referenceK, 'K', 273.15, 373.15, 'handbook');
  requireRange('reaction temperature', temperatureK, 'K', 273.15, 373.15, 'handbook');
  return atReference * Math.exp((-energyCalPerMol / GAS_CAL_PER_MOL_K) * (1 / temperatureK - 1 / referenceK));
}

/**
 * Oil and methanol as they meet, before anything has reacted. Volumes at the reaction temperature are taken
 * as additive, above 60 degC those at 60 degC, where the densities end.
 * @param ratio                methanol for each mole of oil [mol/mol], scalar
 * @param triglycerideGPerMol  mean molar mass of the oil [g/mol], scalar
 * @param temperatureK         reaction temperature [K], scalar
 * @returns                    concentrations [mol/L], record of Mixture
 * @throws OutOfRangeError  ratio outside 0.5..15, molar mass outside 400..1200 g/mol, temperature outside
 *                          273.15..373.15 K
 * @source worked-out, moles over added volumes; handbook for the densities
 * @example startingMixture(6, 872.16, 323.15).triglyceride // 0.8189
 */
export function startingMixture(ratio: number, triglycerideGPerMol: number, temperatureK: number): Mixture {
  requireRange('methanol ratio', ratio, 'mol/mol', 0.5, 15, 'common-practice');
  requireRange('molar mass of the oil', triglycerideGPerMol, 'g/mol', 400, 1200, 'worked-out');
  requireRange('reaction temperature', temperatureK, 'K', 273.15, 373.15, 'handbook');
  const densityK = Math.min(temperatureK, DENSITIES_END_K);
  const oilML = triglycerideGPerMol / liquidDensityGPerMl('oil', densityK);
  const methanolML = (ratio * METHANOL_G_PER_MOL) / liquidDensityGPerMl('methanol', densityK);
  const triglyceride = 1000 / (oilML + methanolML);
  return {
    triglyceride,
    diglyceride: 0,
    monoglyceride: 0,
    ester: 0,
    glycerol: 0,
    methanol: ratio * triglyceride,
  };
}

/**
 * Three reversible steps, each first order in both partners.   r = k_forward G M - k_back P E
 * @param constants  the six constants k1 to k6, forward and back by turns [L/(mol min)], six scalars
 * @returns          the law [mol/(L min)], record of RateLaw
 * @throws OutOfRangeError  a constant that is negative
 * @source noureddini-1997, form of the rate equations
 * @example massActionLaw([0.05, 0.11, 0.215, 1.228, 0.242, 0.007])
 *          .steps(startingMixture(6, 872.16, 323.15))[0] // 0.2012
 */
export function massActionLaw(constants: SixConstants): RateLaw {
  for (const constant of constants) {
    requireRange('rate constant', constant, 'L/(mol min)', 0, Number.POSITIVE_INFINITY, 'worked-out');
  }
  const [k1, k2, k3, k4, k5, k6] = constants;
  return {
    steps: (m) => [
      k1 * m.triglyceride * m.methanol - k2 * m.diglyceride * m.ester,
      k3 * m.diglyceride * m.methanol - k4 * m.monoglyceride * m.ester,
      k5 * m.monoglyceride * m.methanol - k6 * m.glycerol * m.ester,
    ],
    quickest: (m) => {
      const first = k1 * (m.triglyceride + m.methanol) + k2 * (m.diglyceride + m.ester);
      const second = k3 * (m.diglyceride + m.methanol) + k4 * (m.monoglyceride + m.ester);
      const third = k5 * (m.monoglyceride + m.methanol) + k6 * (m.glycerol + m.ester);
      return Math.max(first, second, third);
    },
  };
}

function moved(m: Mixture, [first, second, third]: Steps, minutes: number): Mixture {
  const all = (first + second + third) * minutes;
  return {
    triglyceride: m.triglyceride - first * minutes,
    diglyceride: m.diglyceride + (first - second) * minutes,
    monoglyceride: m.monoglyceride + (second - third) * minutes,
    ester: m.ester + all,
    glycerol: m.glycerol + third * minutes,
    methanol: m.methanol - all,
  };
}

function rungeKuttaStep(law: RateLaw, m: Mixture, start: Steps, minutes: number): Mixture {
  const middle = law.steps(moved(m, start, minutes / 2));
  const again = law.steps(moved(m, middle, minutes / 2));
  const end = law.steps(moved(m, again, minutes));
  const mean = (i: 0 | 1 | 2): number => (start[i] + 2 * middle[i] + 2 * again[i] + end[i]) / 6;
  return moved(m, [mean(0), mean(1), mean(2)], minutes);
}

/**
 * Follows a reaction by classical Runge-Kutta steps of fourth order, short while something changes quickly.
 * Written out here: solveODE of mathjs 15.2 is as right, but took 2 to 74 ms for a path that takes 0.02 to
 * 1.5 here (warm), and a forecast with its spread needs some fifty paths.
 * @param law      rates [mol/(L min)], record of RateLaw
 * @param start    concentrations at time zero [mol/L], record of Mixture
 * @param minutes  times to report, rising [min], list
 * @returns        concentrations at those times [mol/L], list of Mixture
 * @throws OutOfRangeError  a time before the one listed before it, or after 1440 min
 * @source handbook, Runge-Kutta method; held to an independent integration in the tests
 * @example mixturesAt(massActionLaw([0.05, 0.11, 0.215, 1.228, 0.242, 0.007]),
 *          startingMixture(6, 872.16, 323.15), [60])[0].ester // 2.054
 */
export function mixturesAt(law: RateLaw, start: Mixture, minutes: readonly number[]): Mixture[] {
  let [now, mixture, still] = [0, start, false];
  return minutes.map((until) => {
    requireRange('time', until, 'min', now, 1440, 'common-practice');
    while (now < until && !still) {
      const steps = law.steps(mixture);
      // Once nothing moves, nothing will: the law knows no time of its own.
      still = Math.max(...steps.map(Math.abs)) < STANDSTILL_MOL_PER_L_MIN;
      const length = Math.min(until - now, STEP / Math.max(law.quickest(mixture), 1e-6));
      mixture = rungeKuttaStep(law, mixture, steps, length);
      now = until - now <= length ? until : now + length;
    }
    now = until;
    return mixture;
  });
}
