import type { GlycerideMasses } from './ester-phase.ts';
import type { RateLaw } from './kinetics.ts';
import { DARNOKO_LOADING_PERCENT, darnokoLaw } from './kinetics-darnoko.ts';
import { JANSRI_LOADING_PERCENT, jansriLaw } from './kinetics-jansri.ts';
import { NOUREDDINI_LOADING_PERCENT, noureddiniLaw } from './kinetics-noureddini.ts';
import { requireRange } from './require-range.ts';

/** A published rate law that has a say, with its share; the shares sum to 1. */
export interface Voice {
  source: 'noureddini-1997' | 'darnoko-2000' | 'jansri-2011';
  share: number;
  law: RateLaw;
  /** How many times more or less catalyst than it was measured with, 1 or more. */
  stretch: number;
}

/** Up to the first loading only the low-catalyst set speaks, from the second on only the other two. */
const LOW_UNTIL_PERCENT = 0.25;
const HIGH_FROM_PERCENT = 0.5;
const JANSRI_FADES_FROM_K = 326.15;
const JANSRI_WHOLE_FROM_K = 328.15;

const clamp = (value: number): number => Math.min(1, Math.max(0, value));
const stretchOf = (loading: number, measured: number): number =>
  Math.max(loading / measured, measured / loading);

/**
 * Share of the low-catalyst rate law at a loading: all at 0.25 % and less, none from 0.50 % on, between them
 * by the logarithm. No set that we hold was measured in between.
 * @param loadingPercent  catalyst as NaOH [%], of the oil mass, scalar
 * @returns               share [1], scalar, 0 to 1
 * @throws OutOfRangeError  loading outside 0.1..1.2 %
 * @source worked-out, half of the lowest and about twice the highest loading measured
 * @example lowCatalystShare(0.38) // 0.396
 */
export function lowCatalystShare(loadingPercent: number): number {
  requireRange('catalyst as NaOH', loadingPercent, '%', 0.1, 1.2, 'worked-out');
  return clamp(
    Math.log(HIGH_FROM_PERCENT / loadingPercent) / Math.log(HIGH_FROM_PERCENT / LOW_UNTIL_PERCENT),
  );
}

/**
 * The published rate laws that speak for a batch. Each was measured at 6 to 1.
 * @param temperatureK    reaction temperature [K], scalar
 * @param loadingPercent  catalyst as NaOH [%], of the oil mass, scalar
 * @param masses          molar masses of the glycerides [g/mol], record of GlycerideMasses
 * @returns               rate laws with their shares [1], list of Voice
 * @throws OutOfRangeError  loading outside 0.1..1.2 %; temperature outside 303.15..343.15 K, and outside
 *                          323.15..338.15 K when the loading is above 0.25 %
 * @source worked-out, choice among noureddini-1997, darnoko-2000 and jansri-2011 by where they were measured
 * @example voicesFor(333.15, 0.7, glycerideMasses(profileFromText('soybean'))).length // 2
 */
export function voicesFor(temperatureK: number, loadingPercent: number, masses: GlycerideMasses): Voice[] {
  const low = lowCatalystShare(loadingPercent);
  const voices: Voice[] = [];
  const add = (source: Voice['source'], share: number, law: () => RateLaw, measured: number): void => {
    if (share > 0) voices.push({ source, share, law: law(), stretch: stretchOf(loadingPercent, measured) });
  };
  const fade = (temperatureK - JANSRI_FADES_FROM_K) / (JANSRI_WHOLE_FROM_K - JANSRI_FADES_FROM_K);
  const jansri = ((1 - low) * clamp(fade)) / (1 + clamp(fade));
  const darnoko = 1 - low - jansri;
  const byDarnoko = (): RateLaw => darnokoLaw(temperatureK, loadingPercent, masses);
  add('darnoko-2000', darnoko, byDarnoko, DARNOKO_LOADING_PERCENT);
  add('jansri-2011', jansri, () => jansriLaw(temperatureK, loadingPercent), JANSRI_LOADING_PERCENT);
  const byNoureddini = (): RateLaw => noureddiniLaw(temperatureK, loadingPercent);
  add('noureddini-1997', low, byNoureddini, NOUREDDINI_LOADING_PERCENT);
  return voices;
}
