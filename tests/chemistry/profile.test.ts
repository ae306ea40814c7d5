import { describe, expect, test } from 'vitest';
import { BadInputError } from '../../src/chemistry/bad-input-error.ts';
import { FATTY_ACIDS, type FattyAcid, fattyAcidGPerMol } from '../../src/chemistry/fatty-acids.ts';
import { alkaliGPerMol, molarMassGPerMol, oleateGPerMol } from '../../src/chemistry/molar-masses.ts';
import { OIL_NAMES, OIL_PROFILES } from '../../src/chemistry/oil-profiles.ts';
import {
  meanFattyAcidGPerMol,
  meanMethylEsterGPerMol,
  meanTriglycerideGPerMol,
  profileFromText,
} from '../../src/chemistry/profile.ts';
import { expectWithin } from './run.ts';

const total = (profile: Partial<Record<FattyAcid, number>>): number =>
  Object.values(profile).reduce((sum, part) => sum + part, 0);

describe('molar masses from IUPAC atomic masses (from memory)', () => {
  test('methanol, glycerol, water, alkali and soap', () => {
    expectWithin(molarMassGPerMol({ C: 1, H: 4, O: 1 }), 32.042, 0.0005);
    expectWithin(molarMassGPerMol({ C: 3, H: 8, O: 3 }), 92.094, 0.0005);
    expectWithin(molarMassGPerMol({ H: 2, O: 1 }), 18.015, 0.0005);
    expectWithin(alkaliGPerMol('NaOH'), 39.997, 0.0005);
    expectWithin(alkaliGPerMol('KOH'), 56.105, 0.0005);
    expectWithin(oleateGPerMol('Na'), 304.45, 0.005);
    expectWithin(oleateGPerMol('K'), 320.56, 0.005);
  });

  test.each([
    ['C8:0', 144.214],
    ['C12:0', 200.322],
    ['C16:0', 256.43],
    ['C16:1', 254.414],
    ['C18:0', 284.484],
    ['C18:1', 282.468],
    ['C18:2', 280.452],
    ['C18:3', 278.436],
    ['C20:1', 310.522],
    ['C22:1', 338.576],
    ['C24:0', 368.646],
  ] as const)('%s is %s g/mol', (acid, molarMass) => {
    expectWithin(fattyAcidGPerMol(acid), molarMass, 0.001);
  });
});

describe('mean molar masses of oils', () => {
  // Worked out as mole averages of the fatty acid tables (looked up); tolerance 0.5 g/mol.
  test.each([
    ['soybean', 99, 278.04, 872.16, 292.06],
    ['sunflower', 99, 279.33, 876.02, 293.35],
    ['canola', 95.3, 281.37, 882.17, 295.4],
    ['corn', 96.6, 278.07, 872.26, 292.1],
    ['palm', 95.2, 269.03, 845.13, 283.05],
    ['olive', 95.3, 278.88, 874.69, 292.91],
    ['cottonseed', 95.4, 274.05, 860.2, 288.08],
    ['peanut', 95.1, 281.66, 883.02, 295.69],
    ['coconut', 94.1, 206.42, 657.32, 220.45],
    ['lard', 95, 273.63, 858.93, 287.65],
    ['beef-tallow', 92.6, 270.47, 849.47, 284.5],
    ['restaurant-grease', 99, 275.89, 865.73, 289.92],
    ['yellow-grease', 94.4, 272.87, 856.65, 286.89],
  ])('%s', (oil, printedSum, acid, triglyceride, ester) => {
    expectWithin(total(OIL_PROFILES[oil]?.massPercent ?? {}), printedSum, 0.05);
    const profile = profileFromText(oil);
    expectWithin(meanFattyAcidGPerMol(profile), acid, 0.5);
    expectWithin(meanTriglycerideGPerMol(profile), triglyceride, 0.5);
    expectWithin(meanMethylEsterGPerMol(profile), ester, 0.5);
  });

  test('soybean oil takes 193.0 mg KOH/g to split (worked out, tolerance 0.5)', () => {
    expectWithin((3 * 56_105) / meanTriglycerideGPerMol(profileFromText('soybean')), 193, 0.5);
  });

  test('pure triolein is 885.45 g/mol (IUPAC atomic masses)', () => {
    expectWithin(meanTriglycerideGPerMol(profileFromText('C18:1')), 885.45, 0.01);
  });
});

describe('a profile is read as people write it', () => {
  test('every oil and every acid by name; fractions sum to one', () => {
    for (const name of [...OIL_NAMES, ...FATTY_ACIDS])
      expect(total(profileFromText(name))).toBeCloseTo(1, 12);
  });

  test.each(['beef-tallow', 'Beef Tallow', ' beef_tallow ', 'beef tallow:100%', 'beef-tallow:100'])(
    '"%s"',
    (text) => {
      const [read, wanted] = [profileFromText(text), profileFromText('beef-tallow')];
      for (const acid of FATTY_ACIDS) expect(read[acid] ?? 0).toBeCloseTo(wanted[acid] ?? 0, 12);
    },
  );

  test.each(['soybean:60%,palm:40%', 'soybean : 60 %, palm : 40 %', 'palm:40,soybean:60'])('"%s"', (text) => {
    const profile = profileFromText(text);
    expect(total(profile)).toBeCloseTo(1, 12);
    expect(profile['C18:2']).toBeCloseTo(0.6 * (54 / 99) + 0.4 * (9.1 / 95.2), 12);
  });

  test('fatty acids may be mixed too', () => {
    expect(profileFromText('C18:1:80%,C18:2:20%')).toEqual({ 'C18:1': 0.8, 'C18:2': 0.2 });
  });

  test.each(['', 'motor oil', 'soybean:60%', 'soybean:60%,palm:60%', 'soybean:60%,', 'constructor', 'C99:1'])(
    '"%s" is refused with the names that would do',
    (text) => {
      expect(() => profileFromText(text)).toThrow(BadInputError);
      expect(() => profileFromText(text)).toThrow(/Oils known: soybean/);
    },
  );
});
