import type { Calculation } from './calculation.ts';
import { BASE_DOSE_G_PER_L } from './dose.ts';
import { ALKALIS } from './molar-masses.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requirePurityPercent, requireRange, requireVolumeL } from './require-range.ts';

/** Methanol for the part that has not reacted, and the least that makers give for the whole batch. */
const METHANOL_OF_UNREACTED = 0.22;
const LEAST_METHANOL_OF_FUEL = 0.03;

/**
 * Share of a fuel that dropped out of the methanol check: at least this much has not reacted.
 * @param dropOutMl  oil at the bottom after the check [mL], scalar
 * @param sampleMl   fuel taken for the check [mL], scalar
 * @returns          unreacted share by volume [1], scalar; a lower bound
 * @throws OutOfRangeError  sample outside 0.5..100 mL, or drop-out above a third of it: then it is a new
 *                          batch
 * @source common-practice, drop-out over sample
 * @example unreactedFraction(0.3, 3) // 0.1
 */
export function unreactedFraction(dropOutMl: number, sampleMl: number): number {
  requireRange('fuel in the check', sampleMl, 'mL', 0.5, 100, 'common-practice');
  requireRange('drop-out', dropOutMl, 'mL', 0, sampleMl / 3, 'common-practice');
  return dropOutMl / sampleMl;
}

export const secondStageCalculation: Calculation = {
  name: 'second-stage',
  about: 'A second, smaller dose: the part that dropped out is treated as fresh oil without free acid.',
  inputs: {
    fuel: { unit: 'L', about: 'fuel left after the glycerin was drawn', readsPercent: 2 },
    dropOut: { unit: 'mL', about: 'oil that dropped out in the methanol check', reads: 0.05 },
    sample: { unit: 'mL', about: 'fuel taken for the check', default: 3, reads: 0.1 },
    catalyst: { unit: 'text', about: 'alkali', choices: ALKALIS, default: 'KOH' },
    purity: { unit: '%', about: 'pure alkali in what was bought', default: 100, reads: 1 },
  },
  outputs: {
    methanol: { unit: 'L', about: 'methanol for the part that dropped out', digits: 2 },
    catalyst: { unit: 'g', about: 'alkali as bought for the part that dropped out', digits: 2 },
    unreacted: { unit: '%', about: 'unreacted share by volume, at least', digits: 2 },
    methanolFloor: { unit: 'L', about: 'least methanol that makers give: 3 % of the fuel', digits: 2 },
  },
  sources: ['common-practice'],
  run(inputs) {
    const fuelL = numberOf(inputs, 'fuel');
    const purityPercent = numberOf(inputs, 'purity');
    requireVolumeL('fuel volume', fuelL);
    requirePurityPercent(purityPercent);
    const fraction = unreactedFraction(numberOf(inputs, 'dropOut'), numberOf(inputs, 'sample'));
    const unreactedL = fuelL * fraction;
    return {
      methanol: unreactedL * METHANOL_OF_UNREACTED,
      catalyst:
        (unreactedL * BASE_DOSE_G_PER_L[choiceOf(inputs, 'catalyst', ALKALIS)]) / (purityPercent / 100),
      unreacted: 100 * fraction,
      methanolFloor: fuelL * LEAST_METHANOL_OF_FUEL,
    };
  },
};
