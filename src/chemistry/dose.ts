import { BadInputError } from './bad-input-error.ts';
import type { Calculation, InputValues } from './calculation.ts';
import { METHANOL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { methanolFromInputs, methanolRatio } from './methanol.ts';
import { ALKALIS, type Alkali, alkaliGPerMol } from './molar-masses.ts';
import { meanTriglycerideGPerMol, profileFromText } from './profile.ts';
import { choiceOf, numberOf, optionalNumberOf, textOf } from './read-input.ts';
import { requirePurityPercent, requireRange, requireVolumeL } from './require-range.ts';
import { ACID_VALUE_PER_FFA_PERCENT } from './titration.ts';

/** Pure alkali for an oil without free acid, g/L of oil. Common practice: 6 to 8 (KOH), 4 to 5.5 (NaOH). */
export const BASE_DOSE_G_PER_L: Readonly<Record<Alkali, number>> = { KOH: 7, NaOH: 5 };

/**
 * Density that the titration takes for oil when none is given, so that titration and dose mirror each other.
 */
const TITRATED_OIL_G_PER_ML = 0.92;

/**
 * Titration figure that an oil of known free fatty acid would give, in mL of pure 1 g/L alkali on 1 mL of
 * oil.
 * @param ffaPercent  free fatty acid counted as oleic [%], mass percent, scalar
 * @param alkali      NaOH or KOH [text]
 * @returns           titration figure [mL], scalar; equal to g of pure alkali that 1 L of oil eats
 * @throws OutOfRangeError  free fatty acid outside 0..30 %
 * @source aocs-ca-5a-40, turned round; oil taken as 0.92 g/mL
 * @example titrantForFfaMl(1, 'NaOH') // 1.305
 */
export function titrantForFfaMl(ffaPercent: number, alkali: Alkali): number {
  requireRange('free fatty acid', ffaPercent, '%', 0, 30, 'common-practice');
  return (ffaPercent * ACID_VALUE_PER_FFA_PERCENT * TITRATED_OIL_G_PER_ML * alkaliGPerMol(alkali)) / 56.1;
}

/**
 * Alkali as bought for each litre of oil, with the purity put in exactly once.
 * Titrant of true strength: (base + T) / p. Titrant weighed from the same tub: base / p + T, because T has
 * already grown by the impurity and dividing it again would over-dose.
 * @param baseGPerL  pure alkali for oil without free acid [g/L], scalar
 * @param titrantMl  titration figure, mL of 1 g/L on 1 mL of oil [mL], scalar
 * @param purity     pure alkali in what was bought [1], mass fraction, scalar
 * @param sameTub    true when the titrant was weighed, as bought, from the tub that will be dosed [1],
 *                   boolean
 * @returns          alkali as bought [g/L], scalar
 * @throws OutOfRangeError  base outside 0..20 g/L, titrant outside 0..30 mL, purity outside 0.5..1
 * @source common-practice, base and titration add; worked-out, where the purity belongs
 * @example boughtAlkaliGPerL(7, 2.5, 0.9, true) // 10.28, with sameTub false 10.56
 */
export function boughtAlkaliGPerL(
  baseGPerL: number,
  titrantMl: number,
  purity: number,
  sameTub: boolean,
): number {
  requireDose(baseGPerL, titrantMl, purity);
  return sameTub ? baseGPerL / purity + titrantMl : (baseGPerL + titrantMl) / purity;
}

function requireDose(baseGPerL: number, titrantMl: number, purity: number): void {
  requireRange('base dose', baseGPerL, 'g/L', 0, 20, 'common-practice');
  requireRange('titration figure', titrantMl, 'mL', 0, 30, 'common-practice');
  requireRange('purity', purity, '1', 0.5, 1, 'common-practice');
}

function titrantOf(inputs: InputValues, alkali: Alkali, sameTub: boolean): number {
  const ffa = optionalNumberOf(inputs, 'ffa');
  if (ffa === undefined) return numberOf(inputs, 'titrant');
  if (sameTub) {
    throw new BadInputError(
      'sameTub',
      'sameTub=yes goes with titrant=..., not with ffa=...; give the millilitres used.',
    );
  }
  return titrantForFfaMl(ffa, alkali);
}

export const doseCalculation: Calculation = {
  name: 'dose',
  about: 'Alkali as bought and methanol for a batch of dry oil, both at 20 °C.',
  inputs: {
    oil: { unit: 'L', about: 'oil volume at 20 °C', readsPercent: 1 },
    titrant: {
      unit: 'mL',
      about: 'titration figure: mL of 1 g/L solution of the same alkali for 1 mL of oil',
      reads: 0.1,
    },
    ffa: { unit: '%', about: 'free fatty acid of the oil', insteadOf: 'titrant', reads: 0.1 },
    catalyst: { unit: 'text', about: 'alkali', choices: ALKALIS },
    purity: { unit: '%', about: 'pure alkali in what was bought', default: 100, reads: 1 },
    base: {
      unit: 'g/L',
      about: 'pure alkali for oil without free acid; left out: 7 for KOH, 5 for NaOH',
      optional: true,
    },
    sameTub: {
      unit: 'text',
      about: 'yes: the titrant was weighed from this same tub, so the purity corrects the base only',
      choices: ['no', 'yes'],
      default: 'no',
    },
    methanol: { unit: '%', about: 'methanol by volume of the oil', default: 20 },
    ratio: { unit: 'mol/mol', about: 'moles of methanol for each mole of oil', insteadOf: 'methanol' },
    profile: { unit: 'text', about: 'kind of oil', default: 'soybean' },
  },
  outputs: {
    catalyst: { unit: 'g', about: 'alkali as bought for the batch', digits: 3 },
    methanol: { unit: 'L', about: 'methanol at 20 °C', digits: 3 },
    ratio: { unit: 'mol/mol', about: 'moles of methanol for each mole of oil', digits: 3 },
    perLitre: { unit: 'g/L', about: 'alkali as bought for each litre of oil', digits: 3 },
    purePerLitre: { unit: 'g/L', about: 'pure alkali for each litre of oil', digits: 3 },
    methanolMass: { unit: 'kg', about: 'methanol by mass', digits: 3 },
  },
  sources: ['common-practice', 'worked-out', 'aocs-ca-5a-40', 'handbook', 'nist-webbook'],
  run(inputs) {
    const alkali = choiceOf(inputs, 'catalyst', ALKALIS);
    const sameTub = choiceOf(inputs, 'sameTub', ['no', 'yes']) === 'yes';
    const oilVolumeL = numberOf(inputs, 'oil');
    const purityPercent = numberOf(inputs, 'purity');
    requirePurityPercent(purityPercent);
    const purity = purityPercent / 100;
    requireVolumeL('oil volume', oilVolumeL);
    const base = optionalNumberOf(inputs, 'base') ?? BASE_DOSE_G_PER_L[alkali];
    const perLitre = boughtAlkaliGPerL(base, titrantOf(inputs, alkali, sameTub), purity, sameTub);
    const molarMass = meanTriglycerideGPerMol(profileFromText(textOf(inputs, 'profile')));
    const methanol = methanolFromInputs(inputs, oilVolumeL, molarMass);
    return {
      catalyst: perLitre * oilVolumeL,
      methanol,
      ratio: methanolRatio(methanol, oilVolumeL, molarMass),
      perLitre,
      purePerLitre: perLitre * purity,
      methanolMass: methanol * METHANOL_AT_20C_G_PER_ML,
    };
  },
};
