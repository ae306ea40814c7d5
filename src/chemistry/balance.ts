import {
  type Alkali,
  alkaliGPerMol,
  GLYCEROL_G_PER_MOL,
  METHANOL_G_PER_MOL,
  OLEIC_ACID_G_PER_MOL,
  oleateGPerMol,
  WATER_G_PER_MOL,
} from './molar-masses.ts';
import { OutOfRangeError } from './out-of-range-error.ts';
import { meanMethylEsterGPerMol, meanTriglycerideGPerMol, type Profile } from './profile.ts';
import { requireRange } from './require-range.ts';

/** What goes into the vessel, by mass; the oil is split into what a titration and a water test tell. */
export interface Charge {
  triglycerideKg: number;
  /** Free fatty acid, counted as oleic. */
  freeFattyAcidKg: number;
  waterKg: number;
  methanolKg: number;
  /** Pure alkali. */
  alkaliKg: number;
  alkali: Alkali;
}

/** Every substance after the reaction, in kilograms. */
export interface Products {
  ester: number;
  triglyceride: number;
  freeFattyAcid: number;
  glycerol: number;
  methanol: number;
  soap: number;
  water: number;
  alkali: number;
}

/**
 * Masses after the reaction. Alkali first neutralises the free acid mole for mole; then the given share of
 * the triglyceride turns into ester and glycerol. Half-reacted glycerides are counted as unreacted oil.
 * Ester split by water is not in here, see worstExtraSoapKg.
 * @param charge             masses that go in [kg], record of Charge
 * @param conversionPercent  share of the triglyceride that reacts [%], scalar
 * @param profile            fatty acid mass fractions of the oil [1], record
 * @returns                  masses that come out [kg], record of Products; their sum is the mass that went in
 * @throws OutOfRangeError  conversion outside 0..100 % or above what the methanol allows, or a mass below 0
 *                          kg
 * @source worked-out, stoichiometry; iupac-atomic-masses
 * @example reactionProducts({ triglycerideKg: 100, freeFattyAcidKg: 0, waterKg: 0, methanolKg: 21.71,
 *          alkaliKg: 1, alkali: 'KOH' }, 100, { 'C18:1': 1 }).ester // 100.45, and 10.40 kg of glycerol
 */
export function reactionProducts(charge: Charge, conversionPercent: number, profile: Profile): Products {
  requireMasses(charge);
  requireRange('conversion', conversionPercent, '%', 0, 100, 'worked-out');
  const alkaliMolarMass = alkaliGPerMol(charge.alkali);
  const acidMol = charge.freeFattyAcidKg / OLEIC_ACID_G_PER_MOL;
  const alkaliMol = charge.alkaliKg / alkaliMolarMass;
  const neutralisedMol = Math.min(acidMol, alkaliMol);
  const triglycerideMol = charge.triglycerideKg / meanTriglycerideGPerMol(profile);
  const reactedMol = (triglycerideMol * conversionPercent) / 100;
  const methanolMol = charge.methanolKg / METHANOL_G_PER_MOL;
  if (3 * reactedMol > methanolMol * (1 + 1e-12)) {
    const most = (100 * methanolMol) / (3 * triglycerideMol);
    throw new OutOfRangeError('conversion', conversionPercent, '%', 0, most, 'worked-out');
  }
  const metal = charge.alkali === 'KOH' ? 'K' : 'Na';
  return {
    ester: 3 * reactedMol * meanMethylEsterGPerMol(profile),
    triglyceride: charge.triglycerideKg * (1 - conversionPercent / 100),
    freeFattyAcid: (acidMol - neutralisedMol) * OLEIC_ACID_G_PER_MOL,
    glycerol: reactedMol * GLYCEROL_G_PER_MOL,
    methanol: Math.max(0, methanolMol - 3 * reactedMol) * METHANOL_G_PER_MOL,
    soap: neutralisedMol * oleateGPerMol(metal),
    water: charge.waterKg + neutralisedMol * WATER_G_PER_MOL,
    alkali: (alkaliMol - neutralisedMol) * alkaliMolarMass,
  };
}

/**
 * More soap at worst: every molecule of water lets one molecule of the alkali that is left split one of
 * ester. In practice only a part of it happens.
 * @param products  masses after the reaction [kg], record of Products
 * @param alkali    NaOH or KOH [text]
 * @returns         soap beyond that of the free acid [kg], scalar, an upper bound
 * @throws OutOfRangeError  water or alkali below 0 kg
 * @source worked-out, stoichiometry
 * @example worstExtraSoapKg({ water: 0.018, alkali: 1 }, 'KOH') // 0.3203
 */
export function worstExtraSoapKg(products: Pick<Products, 'water' | 'alkali'>, alkali: Alkali): number {
  requireRange('water', products.water, 'kg', 0, Number.POSITIVE_INFINITY, 'worked-out');
  requireRange('alkali left', products.alkali, 'kg', 0, Number.POSITIVE_INFINITY, 'worked-out');
  const splitMol = Math.min(products.water / WATER_G_PER_MOL, products.alkali / alkaliGPerMol(alkali));
  return splitMol * oleateGPerMol(alkali === 'KOH' ? 'K' : 'Na');
}

function requireMasses(charge: Charge): void {
  const masses: [string, number][] = [
    ['oil', charge.triglycerideKg],
    ['free fatty acid', charge.freeFattyAcidKg],
    ['water', charge.waterKg],
    ['methanol', charge.methanolKg],
    ['alkali', charge.alkaliKg],
  ];
  for (const [name, kg] of masses) requireRange(name, kg, 'kg', 0, Number.POSITIVE_INFINITY, 'worked-out');
}
