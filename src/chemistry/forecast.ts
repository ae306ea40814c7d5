import type { Calculation } from './calculation.ts';
import { kelvinFromCelsius } from './celsius.ts';
import { glycerideMasses } from './ester-phase.ts';
import { movedOutlook, outlookFor } from './forecast-spread.ts';
import { molarMassGPerMol } from './molar-masses.ts';
import { profileFromText } from './profile.ts';
import { choiceOf, numberOf, textOf } from './read-input.ts';
import { requireRange } from './require-range.ts';

const CATALYST = {
  NaOH: molarMassGPerMol({ Na: 1, O: 1, H: 1 }),
  KOH: molarMassGPerMol({ K: 1, O: 1, H: 1 }),
  NaOCH3: molarMassGPerMol({ Na: 1, O: 1, C: 1, H: 3 }),
} as const;
export type Catalyst = keyof typeof CATALYST;
export const CATALYSTS = ['NaOH', 'KOH', 'NaOCH3'] as const satisfies readonly Catalyst[];

/**
 * Catalyst counted as the NaOH that has as many moles; such loadings were found to act alike.
 * @param loadingPercent  pure catalyst [%], of the oil mass, scalar
 * @param catalyst        NaOH, KOH or NaOCH3 [text]
 * @returns               the same as NaOH [%], of the oil mass, scalar
 * @throws OutOfRangeError  loading outside 0..5 %
 * @source mao-2004, abstract: 1.0 % NaOH, 1.35 % NaOCH3 and 1.4 % KOH gave similar results
 * @example loadingAsNaohPercent(1.4, 'KOH') // 1.00
 */
export function loadingAsNaohPercent(loadingPercent: number, catalyst: Catalyst): number {
  requireRange('catalyst', loadingPercent, '%', 0, 5, 'mao-2004');
  return (loadingPercent * CATALYST.NaOH) / CATALYST[catalyst];
}

export const forecastCalculation: Calculation = {
  name: 'forecast',
  about: 'What published reaction rates lead one to expect. No proof: the methanol check decides.',
  inputs: {
    profile: { unit: 'text', about: 'kind of oil', default: 'soybean' },
    ratio: { unit: 'mol/mol', about: 'moles of methanol for each mole of oil', readsPercent: 2 },
    temperature: { unit: 'degC', about: 'reaction temperature', reads: 2 },
    minutes: { unit: 'min', about: 'good mixing since all the methoxide was in', reads: 2 },
    catalyst: { unit: 'text', about: 'which catalyst', choices: CATALYSTS },
    loading: {
      unit: '%',
      about: 'pure catalyst by mass of the oil, without what the free acid takes',
      readsPercent: 5,
    },
    modelOff: {
      unit: '1',
      about: 'how many of its own ± the forecast is moved, -1 to 1; leave it at 0',
      default: 0,
      reads: 1,
    },
  },
  outputs: {
    conversion: { unit: '%', about: 'ester formed, of all that the oil could give', digits: 2 },
    triglyceride: { unit: '%', about: 'oil left, by mass of glycerides and ester', digits: 2 },
    diglyceride: { unit: '%', about: 'diglyceride, by mass of glycerides and ester', digits: 2 },
    monoglyceride: { unit: '%', about: 'monoglyceride, by mass of glycerides and ester', digits: 2 },
    bondedGlycerin: { unit: '%', about: 'glycerol bound in these three, by the same mass', digits: 2 },
  },
  sources: ['noureddini-1997', 'darnoko-2000', 'jansri-2011', 'mao-2004', 'freedman-1984', 'worked-out'],
  run(inputs) {
    const catalyst = choiceOf(inputs, 'catalyst', CATALYSTS);
    const outlook = outlookFor({
      ratio: numberOf(inputs, 'ratio'),
      temperatureK: kelvinFromCelsius(numberOf(inputs, 'temperature')),
      minutes: numberOf(inputs, 'minutes'),
      loadingPercent: loadingAsNaohPercent(numberOf(inputs, 'loading'), catalyst),
      masses: glycerideMasses(profileFromText(textOf(inputs, 'profile'))),
    });
    return { ...movedOutlook(outlook, numberOf(inputs, 'modelOff')) };
  },
};
