import { BadInputError } from './bad-input-error.ts';
import { FATTY_ACIDS, type FattyAcid, fattyAcidGPerMol } from './fatty-acids.ts';
import { GLYCEROL_G_PER_MOL, METHANOL_G_PER_MOL, WATER_G_PER_MOL } from './molar-masses.ts';
import { OIL_NAMES, OIL_PROFILES } from './oil-profiles.ts';

/** Mass fractions of the fatty acids of an oil; they sum to one. */
export type Profile = Partial<Record<FattyAcid, number>>;

function badProfile(text: string): BadInputError {
  return new BadInputError(
    'profile',
    `"${text}" is not an oil profile. Give one oil, or parts that sum to 100 %, ` +
      `such as soybean:60%,palm:40%. Oils known: ${OIL_NAMES.join(', ')}; ` +
      'fatty acids such as C18:1 may be given too.',
  );
}

function normalised(massPercent: Partial<Record<FattyAcid, number>>): Profile {
  const total = Object.values(massPercent).reduce((sum, part) => sum + part, 0);
  return Object.fromEntries(Object.entries(massPercent).map(([acid, part]) => [acid, part / total]));
}

function profileOfPart(name: string, whole: string): Profile {
  const acid = FATTY_ACIDS.find((known) => known.toLowerCase() === name);
  if (acid) return { [acid]: 1 };
  const oil = OIL_NAMES.includes(name) ? OIL_PROFILES[name] : undefined;
  if (!oil) throw badProfile(whole);
  return normalised(oil.massPercent);
}

/** One part of a mixture: a name, a colon and a percentage. Fatty acid names hold a colon themselves. */
const PART = /^(c\d+:\d|[a-z-]+):(\d+(?:\.\d+)?)%?$/;

/**
 * Fatty acid profile named by a text: one oil, one fatty acid, or a mixture by mass.
 * @param text  such as soybean, or soybean:60%,palm:40% [text]
 * @returns     fatty acid mass fractions [1], record; they sum to 1
 * @throws BadInputError  when a name is unknown or the parts do not sum to 99..101 %
 * @source nrc-1998-fats, p. 258; matern-child-nutr-2011, table 2; canakci-2001 (see oil-profiles.ts)
 * @example profileFromText('soybean')['C18:2'] // 0.545, 54 parts in 99
 */
export function profileFromText(text: string): Profile {
  const words = text
    .trim()
    .toLowerCase()
    .replace(/\s*([:,%])\s*/g, '$1')
    .replace(/[\s_]+/g, '-');
  if (!words.includes(',') && !PART.test(words)) return profileOfPart(words, text);
  const parts = words.split(',').map((part) => {
    const match = PART.exec(part);
    if (!match) throw badProfile(text);
    return { profile: profileOfPart(match[1] as string, text), percent: Number(match[2]) };
  });
  const total = parts.reduce((sum, part) => sum + part.percent, 0);
  if (!(total >= 99 && total <= 101)) throw badProfile(text);
  const mixed: Profile = {};
  for (const { profile, percent } of parts) {
    for (const acid of FATTY_ACIDS) {
      const fraction = profile[acid];
      if (fraction !== undefined) mixed[acid] = (mixed[acid] ?? 0) + (fraction * percent) / total;
    }
  }
  return mixed;
}

/**
 * Mean molar mass of the fatty acids of an oil.   M = 1 / sum of (w / M_i)
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        molar mass [g/mol], scalar
 * @source worked-out, mole average of a mass profile
 * @example meanFattyAcidGPerMol(profileFromText('soybean')) // 278.04
 */
export function meanFattyAcidGPerMol(profile: Profile): number {
  const molesPerG = FATTY_ACIDS.reduce((sum, acid) => sum + (profile[acid] ?? 0) / fattyAcidGPerMol(acid), 0);
  return 1 / molesPerG;
}

/**
 * Mean molar mass of the triglycerides of an oil: glycerol and three acids less three waters.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        molar mass [g/mol], scalar
 * @source worked-out, stoichiometry
 * @example meanTriglycerideGPerMol(profileFromText('soybean')) // 872.16
 */
export function meanTriglycerideGPerMol(profile: Profile): number {
  return 3 * meanFattyAcidGPerMol(profile) + GLYCEROL_G_PER_MOL - 3 * WATER_G_PER_MOL;
}

/**
 * Mean molar mass of the methyl esters of an oil: acid and methanol less water.
 * @param profile  fatty acid mass fractions [1], record; they sum to 1
 * @returns        molar mass [g/mol], scalar
 * @source worked-out, stoichiometry
 * @example meanMethylEsterGPerMol(profileFromText('soybean')) // 292.06
 */
export function meanMethylEsterGPerMol(profile: Profile): number {
  return meanFattyAcidGPerMol(profile) + METHANOL_G_PER_MOL - WATER_G_PER_MOL;
}
