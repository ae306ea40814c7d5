import { OutOfRangeError } from './out-of-range-error.ts';

/** Throws OutOfRangeError unless the value is a finite number from low to high, both ends allowed. */
export function requireRange(
  quantity: string,
  value: number,
  unit: string,
  low: number,
  high: number,
  source: string,
): void {
  if (!Number.isFinite(value) || value < low || value > high) {
    throw new OutOfRangeError(quantity, value, unit, low, high, source);
  }
}

/** Throws OutOfRangeError unless this is a purity in percent that alkali worth dosing can have. */
export function requirePurityPercent(purityPercent: number): void {
  requireRange('purity', purityPercent, '%', 50, 100, 'common-practice');
}

/** Throws OutOfRangeError unless the value is a volume that a small workshop could hold. */
export function requireVolumeL(quantity: string, volumeL: number): void {
  requireRange(quantity, volumeL, 'L', 0.01, 100_000, 'common-practice');
}
