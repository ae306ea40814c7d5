import { type Products, reactionProducts, worstExtraSoapKg } from './balance.ts';
import type { Calculation } from './calculation.ts';
import {
  FUEL_AT_20C_G_PER_ML,
  GLYCEROL_AT_20C_G_PER_ML,
  METHANOL_AT_20C_G_PER_ML,
  OIL_AT_20C_G_PER_ML,
} from './liquid-density.ts';
import { ALKALIS } from './molar-masses.ts';
import { profileFromText } from './profile.ts';
import { choiceOf, numberOf, textOf } from './read-input.ts';
import { requirePurityPercent, requireRange, requireVolumeL } from './require-range.ts';

/** Where leftover methanol goes when the layers part. From memory: Zhou and Boocock 2006. */
const METHANOL_IN_FUEL = 0.42;
/** Solid KOH and NaOH, and soap, as they add to the volume of the lower layer; g/mL, handbook, rough. */
const ALKALI_G_PER_ML = 2;
const SOAP_G_PER_ML = 1;

export interface Layers {
  /** Ester, unreacted oil and free acid, without methanol. */
  fuelL: number;
  glycerinLayerL: number;
  methanolInFuelL: number;
  methanolInGlycerinL: number;
}

/**
 * Volumes of the two layers at 20 degC, volumes taken as additive. Glycerol, soap, water and alkali are put
 * in the lower layer whole; in truth a few percent of each stays above until the methanol is out.
 * @param products  masses after the reaction [kg], record of Products
 * @returns         volumes [L], record of Layers
 * @throws OutOfRangeError  a mass below 0 kg
 * @source zhou-boocock-2006, 42 to 58 split of leftover methanol (from memory); csernica-2011 for the
 *         direction
 * @example layersOf({ ester: 92.34, triglyceride: 0, freeFattyAcid: 0, glycerol: 9.71, methanol: 10.13,
 *          soap: 0, water: 0, alkali: 0.9 }).glycerinLayerL // 15.58
 */
export function layersOf(products: Products): Layers {
  for (const [name, kg] of Object.entries(products)) {
    requireRange(name, kg, 'kg', 0, Number.POSITIVE_INFINITY, 'worked-out');
  }
  const methanolL = products.methanol / METHANOL_AT_20C_G_PER_ML;
  const methanolInGlycerinL = (1 - METHANOL_IN_FUEL) * methanolL;
  return {
    fuelL:
      products.ester / FUEL_AT_20C_G_PER_ML +
      (products.triglyceride + products.freeFattyAcid) / OIL_AT_20C_G_PER_ML,
    glycerinLayerL:
      products.glycerol / GLYCEROL_AT_20C_G_PER_ML +
      methanolInGlycerinL +
      products.alkali / ALKALI_G_PER_ML +
      products.soap / SOAP_G_PER_ML +
      products.water,
    methanolInFuelL: METHANOL_IN_FUEL * methanolL,
    methanolInGlycerinL,
  };
}

export const balanceCalculation: Calculation = {
  name: 'balance',
  about:
    'What comes out of a batch, by mass balance. A bench figure: real batches lose some to soap and washing.',
  inputs: {
    oil: { unit: 'L', about: 'oil volume at 20 °C', readsPercent: 1 },
    ffa: { unit: '%', about: 'free fatty acid of the oil', reads: 0.1 },
    water: { unit: '%', about: 'water in the oil, by mass', reads: 0.05 },
    methanol: { unit: 'L', about: 'methanol at 20 °C', readsPercent: 1 },
    catalyst: { unit: 'g', about: 'alkali as bought', readsPercent: 1 },
    conversion: { unit: '%', about: 'share of the oil that has become ester', reads: 2 },
    alkali: { unit: 'text', about: 'which alkali', choices: ALKALIS, default: 'KOH' },
    purity: {
      unit: '%',
      about: 'pure alkali in what was bought; the rest counts as water',
      default: 100,
      reads: 1,
    },
    profile: { unit: 'text', about: 'kind of oil', default: 'soybean' },
  },
  outputs: {
    fuel: { unit: 'L', about: 'fuel once its methanol is out', digits: 3 },
    glycerinLayer: { unit: 'L', about: 'lower layer with its methanol', digits: 2 },
    soap: { unit: 'kg', about: 'soap from the free acid', digits: 2 },
    methanolInFuel: { unit: 'L', about: 'leftover methanol in the fuel layer', digits: 2 },
    methanolInGlycerin: { unit: 'L', about: 'leftover methanol in the lower layer', digits: 2 },
    soapWorst: { unit: 'kg', about: 'soap at worst, if all water splits ester too', digits: 2 },
    fuelLayer: { unit: 'L', about: 'upper layer with its methanol', digits: 3 },
    massIn: { unit: 'kg', about: 'all that went in, equal to all that comes out', digits: 4 },
  },
  sources: [
    'worked-out',
    'zhou-boocock-2006',
    'csernica-2011',
    'iupac-atomic-masses',
    'handbook',
    'en-14214',
  ],
  run(inputs) {
    const oilL = numberOf(inputs, 'oil');
    const [ffa, water, purity] = [
      numberOf(inputs, 'ffa'),
      numberOf(inputs, 'water'),
      numberOf(inputs, 'purity'),
    ];
    requireVolumeL('oil volume', oilL);
    requireRange('free fatty acid', ffa, '%', 0, 30, 'common-practice');
    requireRange('water', water, '%', 0, 5, 'common-practice');
    requirePurityPercent(purity);
    const oilKg = oilL * OIL_AT_20C_G_PER_ML;
    const boughtKg = numberOf(inputs, 'catalyst') / 1000;
    const alkali = choiceOf(inputs, 'alkali', ALKALIS);
    const charge = {
      triglycerideKg: oilKg * (1 - (ffa + water) / 100),
      freeFattyAcidKg: (oilKg * ffa) / 100,
      waterKg: (oilKg * water) / 100 + boughtKg * (1 - purity / 100),
      methanolKg: numberOf(inputs, 'methanol') * METHANOL_AT_20C_G_PER_ML,
      alkaliKg: (boughtKg * purity) / 100,
      alkali,
    };
    const profile = profileFromText(textOf(inputs, 'profile'));
    const products = reactionProducts(charge, numberOf(inputs, 'conversion'), profile);
    const layers = layersOf(products);
    return {
      fuel: layers.fuelL,
      glycerinLayer: layers.glycerinLayerL,
      soap: products.soap,
      methanolInFuel: layers.methanolInFuelL,
      methanolInGlycerin: layers.methanolInGlycerinL,
      soapWorst: products.soap + worstExtraSoapKg(products, alkali),
      fuelLayer: layers.fuelL + layers.methanolInFuelL,
      massIn: oilKg + charge.methanolKg + boughtKg,
    };
  },
};
