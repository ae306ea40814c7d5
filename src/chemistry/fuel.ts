import type { Calculation } from './calculation.ts';
import { celsiusFromKelvin } from './celsius.ts';
import {
  cetaneNumberByKrisnangkura,
  cetaneNumberByWang,
  cloudPointBySarinK,
  coldFilterPluggingByRamosK,
  degreeOfUnsaturation,
  esterSaponificationValue,
  higherHeatingValueMJPerKg,
  inductionPeriodByWangH,
  iodineValueByFactors,
  iodineValueOfEsters,
  MOST_SHORT_ACIDS_PERCENT,
  shortAcidsPercent,
} from './fuel-properties.ts';
import { meanMethylEsterGPerMol, meanTriglycerideGPerMol, type Profile, profileFromText } from './profile.ts';
import { numberOf, textOf } from './read-input.ts';

function coldFlow(profile: Profile, offK: number): Record<string, number> {
  if (shortAcidsPercent(profile) > MOST_SHORT_ACIDS_PERCENT) return {};
  return {
    cloudPoint: celsiusFromKelvin(cloudPointBySarinK(profile) + offK),
    coldFilterPlugging: celsiusFromKelvin(coldFilterPluggingByRamosK(profile) + 1.5 * offK),
  };
}

export const fuelCalculation: Calculation = {
  name: 'fuel',
  about: 'What fuel an oil makes, estimated from its fatty acids. A laboratory measures; this only warns.',
  inputs: {
    profile: { unit: 'text', about: 'kind of oil, or a mixture by mass such as soybean:60%,palm:40%' },
    cetaneOff: {
      unit: '1',
      about: 'how far the cetane estimates may be off; leave it at 0',
      default: 0,
      reads: 5,
    },
    coldOff: {
      unit: 'K',
      about: 'how far the cold estimates may be off; leave it at 0',
      default: 0,
      reads: 4,
    },
  },
  outputs: {
    molarMass: { unit: 'g/mol', about: 'mean molar mass of the methyl esters', digits: 4 },
    saponificationValue: { unit: 'mg KOH/g', about: 'saponification value of the esters', digits: 4 },
    iodineValue: {
      unit: 'g I2/100 g',
      about: 'iodine value by the factors of the standard method',
      digits: 3,
    },
    cetane: { unit: '1', about: 'cetane number by Krisnangkura', digits: 2 },
    cloudPoint: { unit: 'degC', about: 'cloud point by Sarin', digits: 2, optional: true },
    heatingValue: { unit: 'MJ/kg', about: 'higher heating value by Demirbas', digits: 3 },
    cetaneWang: { unit: '1', about: 'cetane number by Wang, a second opinion', digits: 2 },
    coldFilterPlugging: {
      unit: 'degC',
      about: 'cold filter plugging point by Ramos',
      digits: 2,
      optional: true,
    },
    inductionPeriod: {
      unit: 'h',
      about: 'oxidation stability of the untreated ester by Wang, rough',
      digits: 1,
    },
    oilMolarMass: { unit: 'g/mol', about: 'mean molar mass of the oil', digits: 4 },
  },
  sources: [
    'worked-out',
    'aocs-cd-1c-85',
    'krisnangkura-1986',
    'wang-2012',
    'sarin-2009-cloud',
    'ramos-2009',
    'demirbas-1998',
    'nrc-1998-fats',
    'matern-child-nutr-2011',
    'canakci-2001',
  ],
  run(inputs) {
    const profile = profileFromText(textOf(inputs, 'profile'));
    const molarMass = meanMethylEsterGPerMol(profile);
    const saponificationValue = esterSaponificationValue(molarMass);
    const esterIodine = iodineValueOfEsters(profile);
    const unsaturation = degreeOfUnsaturation(profile);
    const cetaneOff = numberOf(inputs, 'cetaneOff');
    return {
      molarMass,
      saponificationValue,
      iodineValue: iodineValueByFactors(profile),
      cetane: cetaneNumberByKrisnangkura(saponificationValue, esterIodine) + cetaneOff,
      heatingValue: higherHeatingValueMJPerKg(saponificationValue, esterIodine),
      cetaneWang: cetaneNumberByWang(unsaturation) + cetaneOff,
      inductionPeriod: inductionPeriodByWangH(unsaturation),
      oilMolarMass: meanTriglycerideGPerMol(profile),
      ...coldFlow(profile, numberOf(inputs, 'coldOff')),
    };
  },
};
