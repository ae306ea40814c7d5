import type { FattyAcid } from './fatty-acids.ts';

export interface OilProfile {
  /** Fatty acids in mass percent as printed; the columns do not sum to 100 and are normalised before use. */
  massPercent: Partial<Record<FattyAcid, number>>;
  source: string;
}

const swineTable = 'nrc-1998-fats';
const foodTable = 'matern-child-nutr-2011';

// Three assignments are ours: acids printed only as "over C20" are put in C20:1 (canola, lard, tallow,
// restaurant grease), split over C20 to C24 in peanut, and "up to C10" is split over C8 and C10 in coconut.
export const OIL_PROFILES: Readonly<Record<string, OilProfile>> = {
  soybean: {
    massPercent: { 'C16:0': 11, 'C18:0': 4, 'C18:1': 23, 'C18:2': 54, 'C18:3': 7 },
    source: foodTable,
  },
  sunflower: { massPercent: { 'C16:0': 7, 'C18:0': 5, 'C18:1': 26, 'C18:2': 61 }, source: foodTable },
  canola: {
    massPercent: {
      'C16:0': 4,
      'C16:1': 0.2,
      'C18:0': 1.8,
      'C18:1': 56.1,
      'C18:2': 20.3,
      'C18:3': 9.3,
      'C20:1': 3.6,
    },
    source: swineTable,
  },
  corn: {
    massPercent: { 'C16:0': 10.9, 'C18:0': 1.8, 'C18:1': 24.2, 'C18:2': 59, 'C18:3': 0.7 },
    source: swineTable,
  },
  palm: {
    massPercent: {
      'C12:0': 0.1,
      'C14:0': 1,
      'C16:0': 43.5,
      'C16:1': 0.3,
      'C18:0': 4.3,
      'C18:1': 36.6,
      'C18:2': 9.1,
      'C18:3': 0.2,
      'C20:0': 0.1,
    },
    source: swineTable,
  },
  olive: {
    massPercent: {
      'C16:0': 11,
      'C16:1': 0.8,
      'C18:0': 2.2,
      'C18:1': 72.5,
      'C18:2': 7.9,
      'C18:3': 0.6,
      'C20:0': 0.3,
    },
    source: swineTable,
  },
  cottonseed: {
    massPercent: {
      'C14:0': 0.8,
      'C16:0': 22.7,
      'C16:1': 0.8,
      'C18:0': 2.3,
      'C18:1': 17,
      'C18:2': 51.5,
      'C18:3': 0.2,
      'C20:0': 0.1,
    },
    source: swineTable,
  },
  peanut: {
    massPercent: {
      'C14:0': 0.1,
      'C16:0': 9.5,
      'C16:1': 0.1,
      'C18:0': 2.2,
      'C18:1': 44.8,
      'C18:2': 32,
      'C20:0': 1.4,
      'C20:1': 1.3,
      'C22:0': 2.8,
      'C24:0': 0.9,
    },
    source: swineTable,
  },
  coconut: {
    massPercent: {
      'C8:0': 8,
      'C10:0': 6.1,
      'C12:0': 44.6,
      'C14:0': 16.8,
      'C16:0': 8.2,
      'C18:0': 2.8,
      'C18:1': 5.8,
      'C18:2': 1.8,
    },
    source: swineTable,
  },
  lard: {
    massPercent: {
      'C10:0': 0.1,
      'C12:0': 0.2,
      'C14:0': 1.3,
      'C16:0': 23.8,
      'C16:1': 2.7,
      'C18:0': 13.5,
      'C18:1': 41.2,
      'C18:2': 10.2,
      'C18:3': 1,
      'C20:1': 1,
    },
    source: swineTable,
  },
  'beef-tallow': {
    massPercent: {
      'C12:0': 0.9,
      'C14:0': 3.7,
      'C16:0': 24.9,
      'C16:1': 4.2,
      'C18:0': 18.9,
      'C18:1': 36,
      'C18:2': 3.1,
      'C18:3': 0.6,
      'C20:1': 0.3,
    },
    source: swineTable,
  },
  'restaurant-grease': {
    massPercent: {
      'C14:0': 1.9,
      'C16:0': 16.2,
      'C16:1': 2.5,
      'C18:0': 10.5,
      'C18:1': 47.5,
      'C18:2': 17.5,
      'C18:3': 1.9,
      'C20:1': 1,
    },
    source: swineTable,
  },
  'yellow-grease': {
    massPercent: {
      'C14:0': 2.43,
      'C16:0': 23.24,
      'C16:1': 3.79,
      'C18:0': 12.96,
      'C18:1': 44.32,
      'C18:2': 6.97,
      'C18:3': 0.67,
    },
    source: 'canakci-2001',
  },
};

export const OIL_NAMES: readonly string[] = Object.keys(OIL_PROFILES);
