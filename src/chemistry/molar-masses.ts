// IUPAC conventional atomic masses, g/mol (source: iupac-atomic-masses).
const ATOM = { C: 12.011, H: 1.008, O: 15.999, Na: 22.98977, K: 39.0983, S: 32.06 } as const;

export type Atoms = Partial<Record<keyof typeof ATOM, number>>;

/**
 * Molar mass of a molecule from its atoms.   M = sum of n * A
 * @param atoms  number of each atom [1], record by element symbol
 * @returns      molar mass [g/mol], scalar
 * @source iupac-atomic-masses, conventional atomic masses
 * @example molarMassGPerMol({ C: 1, H: 4, O: 1 }) // 32.042, methanol
 */
export function molarMassGPerMol(atoms: Atoms): number {
  return Object.entries(atoms).reduce(
    (sum, [symbol, count]) => sum + ATOM[symbol as keyof typeof ATOM] * count,
    0,
  );
}

export const METHANOL_G_PER_MOL = molarMassGPerMol({ C: 1, H: 4, O: 1 });
export const WATER_G_PER_MOL = molarMassGPerMol({ H: 2, O: 1 });
export const GLYCEROL_G_PER_MOL = molarMassGPerMol({ C: 3, H: 8, O: 3 });
export const SULFURIC_ACID_G_PER_MOL = molarMassGPerMol({ H: 2, S: 1, O: 4 });
export const OLEIC_ACID_G_PER_MOL = molarMassGPerMol({ C: 18, H: 34, O: 2 });
export const METHYL_OLEATE_G_PER_MOL = molarMassGPerMol({ C: 19, H: 36, O: 2 });
/** Potassium hydrogen phthalate, the solid that a reference solution is checked against. */
export const PHTHALATE_G_PER_MOL = molarMassGPerMol({ C: 8, H: 5, K: 1, O: 4 });

const ALKALI = {
  NaOH: molarMassGPerMol({ Na: 1, O: 1, H: 1 }),
  KOH: molarMassGPerMol({ K: 1, O: 1, H: 1 }),
} as const;

export type Alkali = keyof typeof ALKALI;
export const ALKALIS = ['NaOH', 'KOH'] as const satisfies readonly Alkali[];

/**
 * Molar mass of the alkali used as catalyst or titrant.
 * @param alkali  NaOH or KOH [text]
 * @returns       molar mass [g/mol], scalar
 * @source iupac-atomic-masses, conventional atomic masses
 * @example alkaliGPerMol('KOH') // 56.105
 */
export function alkaliGPerMol(alkali: Alkali): number {
  return ALKALI[alkali];
}

export type Metal = 'Na' | 'K';
export const METALS = ['Na', 'K'] as const satisfies readonly Metal[];

/**
 * Molar mass of the metal that makes a soap.
 * @param metal  Na or K [text]
 * @returns      molar mass [g/mol], scalar
 * @source iupac-atomic-masses, conventional atomic masses
 * @example metalGPerMol('K') // 39.098
 */
export function metalGPerMol(metal: Metal): number {
  return ATOM[metal];
}

/**
 * Molar mass of the soap of oleic acid, the acid by which soap is reported.
 * @param metal  Na or K [text]
 * @returns      molar mass [g/mol], scalar
 * @source aocs-cc-17-79, soap as sodium or potassium oleate
 * @example oleateGPerMol('K') // 320.56
 */
export function oleateGPerMol(metal: Metal): number {
  return molarMassGPerMol({ C: 18, H: 33, O: 2, [metal]: 1 });
}
