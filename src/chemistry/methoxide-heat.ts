import type { Calculation } from './calculation.ts';
import { METHANOL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { ALKALIS, type Alkali, alkaliGPerMol } from './molar-masses.ts';
import { choiceOf, numberOf } from './read-input.ts';
import { requirePurityPercent, requireRange, requireVolumeL } from './require-range.ts';

/** Heat set free by dissolving in water, which stands in for methanol; kJ/mol, handbook. */
const DISSOLVING_KJ_PER_MOL: Readonly<Record<Alkali, number>> = { KOH: 57.6, NaOH: 44.5 };
const METHANOL_KJ_PER_KG_K = 2.54;

/**
 * How much dissolving alkali could warm methanol if no heat were lost and all went in at once.
 * @param alkaliG    pure alkali [g], scalar
 * @param alkali     NaOH or KOH [text]
 * @param methanolL  methanol at 20 degC [L], scalar
 * @returns          temperature rise [K], scalar, within about 3 K
 * @throws OutOfRangeError  alkali outside 0..120 g for each litre of methanol, methanol outside 0.01..100000
 *                          L
 * @source handbook, heat of solution in water; nist-webbook, heat capacity of methanol
 * @example methoxideRiseK(1200, 'KOH', 33) // 18.6
 */
export function methoxideRiseK(alkaliG: number, alkali: Alkali, methanolL: number): number {
  requireVolumeL('methanol', methanolL);
  requireRange('alkali', alkaliG, 'g', 0, 120 * methanolL, 'common-practice');
  const heatKJ = (alkaliG / alkaliGPerMol(alkali)) * DISSOLVING_KJ_PER_MOL[alkali];
  return heatKJ / (methanolL * METHANOL_AT_20C_G_PER_ML * METHANOL_KJ_PER_KG_K);
}

export const methoxideHeatCalculation: Calculation = {
  name: 'methoxide-heat',
  about: 'How warm the methanol could get while the alkali dissolves. Add it in small portions all the same.',
  inputs: {
    catalyst: { unit: 'g', about: 'alkali as bought', readsPercent: 1 },
    alkali: { unit: 'text', about: 'which alkali', choices: ALKALIS },
    methanol: { unit: 'L', about: 'methanol at 20 °C', readsPercent: 1 },
    start: { unit: 'degC', about: 'methanol temperature before', default: 20, reads: 2 },
    purity: { unit: '%', about: 'pure alkali in what was bought', default: 100, reads: 1 },
    modelOff: { unit: 'K', about: 'how far the estimate may be off; leave it at 0', default: 0, reads: 3 },
  },
  outputs: {
    rise: { unit: 'K', about: 'temperature rise at most', digits: 2 },
    end: { unit: 'degC', about: 'methanol temperature after, at most', digits: 2 },
  },
  sources: ['handbook', 'nist-webbook'],
  run(inputs) {
    const purity = numberOf(inputs, 'purity');
    requirePurityPercent(purity);
    const pureG = (numberOf(inputs, 'catalyst') * purity) / 100;
    const alkali = choiceOf(inputs, 'alkali', ALKALIS);
    const rise = methoxideRiseK(pureG, alkali, numberOf(inputs, 'methanol')) + numberOf(inputs, 'modelOff');
    return { rise, end: numberOf(inputs, 'start') + rise };
  },
};
