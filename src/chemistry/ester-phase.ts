import type { Mixture } from './kinetics.ts';
import { GLYCEROL_G_PER_MOL, METHANOL_G_PER_MOL } from './molar-masses.ts';
import { meanMethylEsterGPerMol, meanTriglycerideGPerMol, type Profile } from './profile.ts';
import { requireRange } from './require-range.ts';

/** Mean molar masses of what one oil can turn into, g/mol. */
export interface GlycerideMasses {
  triglyceride: number;
  diglyceride: number;
  monoglyceride: number;
  ester: number;
}

/**
 * Of the fuel phase as chromatography sees it: percent by mass of triglyceride, diglyceride, monoglyceride
 * and ester together. Methanol, free glycerol, soap and water are not counted.
 */
export interface EsterPhase {
  /** Ester formed, percent of what all fatty acids of the oil could give (by moles). */
  conversion: number;
  triglyceride: number;
  diglyceride: number;
  monoglyceride: number;
  /** Glycerol that is still bound in the three glycerides. */
  bondedGlycerin: number;
}

/**
 * Mean molar masses of the glycerides and the ester of an oil: each step puts methanol in, takes ester out.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        molar masses [g/mol], record of GlycerideMasses
 * @source worked-out, stoichiometry
 * @example glycerideMasses(profileFromText('soybean')).monoglyceride // 352.12
 */
export function glycerideMasses(profile: Profile): GlycerideMasses {
  const triglyceride = meanTriglycerideGPerMol(profile);
  const ester = meanMethylEsterGPerMol(profile);
  const diglyceride = triglyceride + METHANOL_G_PER_MOL - ester;
  return { triglyceride, diglyceride, monoglyceride: diglyceride + METHANOL_G_PER_MOL - ester, ester };
}

/**
 * Composition of the ester phase of a reacting mixture.
 * @param mixture  concentrations [mol/L], record of Mixture
 * @param masses   molar masses [g/mol], record of GlycerideMasses
 * @returns        conversion and mass percents [%], record of EsterPhase
 * @throws OutOfRangeError  a mixture that holds no glyceride and no ester
 * @source worked-out, mass balance; astm-d6584 for what counts as bonded glycerin
 * @example esterPhase(startingMixture(6, 872.16, 323.15), glycerideMasses(profileFromText('soybean')))
 *          .bondedGlycerin // 10.56, the glycerol in pure oil
 */
export function esterPhase(mixture: Mixture, masses: GlycerideMasses): EsterPhase {
  const { triglyceride, diglyceride, monoglyceride, ester, glycerol } = mixture;
  const backbones = triglyceride + diglyceride + monoglyceride + glycerol;
  requireRange('oil in the mixture', backbones, 'mol/L', 1e-9, Number.POSITIVE_INFINITY, 'worked-out');
  const massG =
    triglyceride * masses.triglyceride +
    diglyceride * masses.diglyceride +
    monoglyceride * masses.monoglyceride +
    ester * masses.ester;
  const bound = triglyceride + diglyceride + monoglyceride;
  return {
    conversion: (100 * ester) / (3 * backbones),
    triglyceride: (100 * triglyceride * masses.triglyceride) / massG,
    diglyceride: (100 * diglyceride * masses.diglyceride) / massG,
    monoglyceride: (100 * monoglyceride * masses.monoglyceride) / massG,
    bondedGlycerin: (100 * bound * GLYCEROL_G_PER_MOL) / massG,
  };
}
