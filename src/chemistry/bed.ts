import type { Calculation } from './calculation.ts';
import { FUEL_AT_20C_G_PER_ML } from './liquid-density.ts';
import { numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

/**
 * Soap that a dry-wash bed can take up before it is full.
 * @param mediumL         medium in the bed [L], scalar
 * @param capacityGPerL   soap that a litre of medium takes [g/L], scalar
 * @returns               soap [kg], scalar
 * @throws OutOfRangeError  medium outside 0.05..10000 L, capacity outside 1..2000 g/L
 * @source wall-2011, about 550 bed volumes at 1200 mg/kg, which is 580 g/L
 * @example bedCapacityKg(10, 580) // 5.8
 */
export function bedCapacityKg(mediumL: number, capacityGPerL: number): number {
  requireRange('medium in the bed', mediumL, 'L', 0.05, 10_000, 'common-practice');
  requireRange('capacity of the medium', capacityGPerL, 'g/L', 1, 2000, 'wall-2011');
  return (mediumL * capacityGPerL) / 1000;
}

/**
 * Soap that one batch brings to the bed, all of it taken up.
 * @param fuelL           fuel in a batch, at 20 degC [L], scalar
 * @param soapContentPpm  soap before the bed [ppm], mg/kg, scalar
 * @returns               soap [kg], scalar
 * @throws OutOfRangeError  fuel outside 0.01..100000 L, soap outside 0..20000 ppm
 * @source worked-out, mass times content
 * @example batchSoapKg(150, 1000) // 0.1315
 */
export function batchSoapKg(fuelL: number, soapContentPpm: number): number {
  requireVolumeL('fuel volume', fuelL);
  requireRange('soap before the bed', soapContentPpm, 'ppm', 0, 20_000, 'common-practice');
  return fuelL * FUEL_AT_20C_G_PER_ML * soapContentPpm * 1e-6;
}

export const bedCalculation: Calculation = {
  name: 'bed',
  about: 'What is left of a dry-wash bed, counted by the soap it has taken.',
  inputs: {
    medium: { unit: 'L', about: 'medium in the bed', readsPercent: 5 },
    capacity: {
      unit: 'g/L',
      about: "soap that a litre of medium takes, from its maker's data sheet",
      readsPercent: 20,
    },
    soapIn: { unit: 'ppm', about: 'soap in the fuel before the bed', readsPercent: 10 },
    batch: { unit: 'L', about: 'fuel in one batch', readsPercent: 2 },
    used: { unit: 'kg', about: 'soap the bed has taken so far', readsPercent: 10 },
  },
  outputs: {
    left: { unit: '%', about: 'capacity left; below zero the bed is overdrawn', digits: 2 },
    batchesLeft: { unit: '1', about: 'more such batches before the bed is full', digits: 2 },
    usedShare: { unit: '%', about: 'capacity used', digits: 2 },
    soapPerBatch: { unit: 'kg', about: 'soap one batch brings', digits: 2 },
  },
  sources: ['wall-2011', 'worked-out', 'en-14214'],
  run(inputs) {
    const capacityKg = bedCapacityKg(numberOf(inputs, 'medium'), numberOf(inputs, 'capacity'));
    const soapIn = numberOf(inputs, 'soapIn');
    requireRange('soap before the bed', soapIn, 'ppm', 1, 20_000, 'common-practice');
    const soapPerBatch = batchSoapKg(numberOf(inputs, 'batch'), soapIn);
    const usedKg = numberOf(inputs, 'used');
    requireRange('soap taken so far', usedKg, 'kg', 0, 5 * capacityKg, 'common-practice');
    const usedShare = (100 * usedKg) / capacityKg;
    // An overdrawn bed has no batch left, not a negative number of them.
    const batchesLeft = Math.max(0, (capacityKg - usedKg) / soapPerBatch);
    return { left: 100 - usedShare, batchesLeft, usedShare, soapPerBatch };
  },
};
