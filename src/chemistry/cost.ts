import type { Calculation, InputSpec } from './calculation.ts';
import { numberOf } from './read-input.ts';
import { requireRange, requireVolumeL } from './require-range.ts';

/** One thing paid for: how much of it, and what one unit costs. */
export interface CostLine {
  amount: number;
  price: number;
}

/**
 * Cost of a batch: amounts times prices, added up.
 * @param lines  amounts [1] in the unit of their price, and prices [money], list of CostLine
 * @returns      cost [money], scalar
 * @throws OutOfRangeError  an amount below 0, or a price that is not a number
 * @source worked-out, sum
 * @example batchCost([{ amount: 20, price: 0.9 }, { amount: 1.2, price: 3 }]) // 21.6
 */
export function batchCost(lines: readonly CostLine[]): number {
  for (const { amount, price } of lines) {
    requireRange('amount', amount, '1', 0, Number.POSITIVE_INFINITY, 'worked-out');
    requireRange('price', price, 'money', -1e9, 1e9, 'worked-out');
  }
  return lines.reduce((sum, { amount, price }) => sum + amount * price, 0);
}

const GALLON_L = 3.785411784;

const LINES: readonly { key: string; unit: string; about: string; price: string }[] = [
  { key: 'oil', unit: 'L', about: 'oil', price: 'one litre of oil; below zero if you are paid to take it' },
  { key: 'methanol', unit: 'L', about: 'methanol bought', price: 'one litre of methanol' },
  { key: 'catalyst', unit: 'kg', about: 'alkali', price: 'one kilogram of alkali' },
  { key: 'energy', unit: 'kWh', about: 'electricity', price: 'one kilowatt-hour' },
  { key: 'medium', unit: 'kg', about: 'dry-wash medium used up', price: 'one kilogram of medium' },
  { key: 'labour', unit: 'h', about: 'hours worked', price: 'one hour' },
];

function lineInputs(): Record<string, InputSpec> {
  const specs = LINES.flatMap(({ key, unit, about, price }): [string, InputSpec][] => [
    [key, { unit, about, default: 0, readsPercent: 2 }],
    [`${key}Price`, { unit: 'money', about: `price of ${price}`, default: 0 }],
  ]);
  return Object.fromEntries(specs);
}

export const costCalculation: Calculation = {
  name: 'cost',
  about: 'What a litre of finished fuel cost, from amounts and prices. Tax is not in it.',
  inputs: {
    fuel: { unit: 'L', about: 'finished fuel', readsPercent: 1 },
    ...lineInputs(),
    recovered: {
      unit: 'L',
      about: 'methanol recovered and used again, at the price of methanol',
      default: 0,
      reads: 0.2,
    },
    other: { unit: 'money', about: 'filters, laboratory, waste and all else for this batch', default: 0 },
  },
  outputs: {
    perLitre: { unit: 'money', about: 'cost of a litre', digits: 3 },
    perGallon: { unit: 'money', about: 'cost of a US gallon', digits: 3 },
    total: { unit: 'money', about: 'cost of the batch', digits: 3 },
  },
  sources: ['worked-out', 'nist-sp-811'],
  run(inputs) {
    const fuelL = numberOf(inputs, 'fuel');
    requireVolumeL('fuel', fuelL);
    const recoveredL = numberOf(inputs, 'recovered');
    requireRange('methanol recovered', recoveredL, 'L', 0, numberOf(inputs, 'methanol'), 'worked-out');
    const lines = LINES.map(({ key }) => ({
      amount: numberOf(inputs, key),
      price: numberOf(inputs, `${key}Price`),
    }));
    const total =
      batchCost(lines) -
      recoveredL * numberOf(inputs, 'methanolPrice') +
      batchCost([{ amount: 1, price: numberOf(inputs, 'other') }]);
    return { perLitre: total / fuelL, perGallon: (total / fuelL) * GALLON_L, total };
  },
};
