import { molarMassGPerMol } from './molar-masses.ts';

/** Carbon atoms and double bonds, written as the trade does: C18:1 has 18 and 1. */
export const FATTY_ACIDS = [
  'C8:0',
  'C10:0',
  'C12:0',
  'C14:0',
  'C16:0',
  'C16:1',
  'C18:0',
  'C18:1',
  'C18:2',
  'C18:3',
  'C20:0',
  'C20:1',
  'C22:0',
  'C22:1',
  'C24:0',
] as const;

export type FattyAcid = (typeof FATTY_ACIDS)[number];

/**
 * Carbon atoms in one molecule of a fatty acid.
 * @param acid  name such as C18:1 [text]
 * @returns     carbon atoms [1], scalar
 * @source handbook, lipid shorthand
 * @example carbonAtoms('C18:1') // 18
 */
export function carbonAtoms(acid: FattyAcid): number {
  return Number(acid.slice(1, acid.indexOf(':')));
}

/**
 * Carbon-to-carbon double bonds in one molecule of a fatty acid.
 * @param acid  name such as C18:1 [text]
 * @returns     double bonds [1], scalar
 * @source handbook, lipid shorthand
 * @example doubleBonds('C18:1') // 1
 */
export function doubleBonds(acid: FattyAcid): number {
  return Number(acid.slice(acid.indexOf(':') + 1));
}

/**
 * Molar mass of a fatty acid with n carbons and d double bonds, formula CnH(2n-2d)O2.
 * @param acid  name such as C18:1 [text]
 * @returns     molar mass [g/mol], scalar
 * @source iupac-atomic-masses, conventional atomic masses
 * @example fattyAcidGPerMol('C18:1') // 282.468, oleic acid
 */
export function fattyAcidGPerMol(acid: FattyAcid): number {
  const carbons = carbonAtoms(acid);
  return molarMassGPerMol({ C: carbons, H: 2 * carbons - 2 * doubleBonds(acid), O: 2 });
}
