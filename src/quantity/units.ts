import { type Dimension, type Unit, type UnitId, unitTable } from './unit-table.ts';

export type { Dimension, Unit, UnitId } from './unit-table.ts';

/** Thrown when a value is asked for in a unit that measures something else. */
export class UnitError extends Error {
  override readonly name = 'UnitError';
}

/** What each dimension is called in a sentence, and what a right answer looks like. */
export const dimensionWords: Record<Dimension, { noun: string; examples: string }> = {
  temperature: { noun: 'a temperature', examples: '54 °C or 130 °F' },
  'temperature-difference': { noun: 'a number of degrees', examples: '5 °C or 9 °F' },
  volume: { noun: 'a volume', examples: '40 L, 40 gal or 250 mL' },
  mass: { noun: 'a weight', examples: '350 g, 1.2 kg or 2 lb' },
  time: { noun: 'a length of time', examples: '90 min or 1.5 h' },
  power: { noun: 'a power', examples: '2000 W or 2 kW' },
  energy: { noun: 'an amount of energy', examples: '3.5 kWh' },
  fraction: { noun: 'a share', examples: '5 % or 500 ppm' },
  count: { noun: 'a plain number', examples: '3' },
  'mole-ratio': { noun: 'a mole ratio', examples: '6 mol/mol' },
  'acid-value': { noun: 'an acid value', examples: '5 mg KOH/g' },
  'mass-per-volume': { noun: 'a weight in a volume', examples: '9 g/L or 0.92 g/mL' },
  molarity: { noun: 'a molar strength', examples: '0.01 mol/L' },
  'molar-mass': { noun: 'a molar mass', examples: '292 g/mol' },
  flow: { noun: 'a flow', examples: '5 L/min' },
  'bed-flow': { noun: 'a flow through a bed', examples: '2 BV/h' },
  rate: { noun: 'a number of times an hour', examples: '4 per hour' },
  pressure: { noun: 'a pressure', examples: '101 kPa, 1 bar or 15 psi' },
  length: { noun: 'a length', examples: '1.2 m, 30 cm or 4 ft' },
  acidity: { noun: 'a pH', examples: 'pH 7' },
  'energy-per-mass': { noun: 'heat in a weight', examples: '39 MJ/kg' },
  'iodine-value': { noun: 'an iodine value', examples: '120 g I2/100 g' },
  viscosity: { noun: 'a thickness', examples: '4.5 mm2/s' },
  money: { noun: 'an amount of money', examples: '2.50' },
};

export function isUnitId(id: string): id is UnitId {
  return Object.hasOwn(unitTable, id);
}

export function unitOf(id: UnitId): Unit {
  return unitTable[id];
}

export function dimensionOf(id: UnitId): Dimension {
  return unitTable[id].dimension;
}

export function sameDimension(a: UnitId, b: UnitId): boolean {
  return dimensionOf(a) === dimensionOf(b);
}

export function unitsFor(dimension: Dimension): UnitId[] {
  return (Object.keys(unitTable) as UnitId[]).filter((id) => dimensionOf(id) === dimension);
}

function requireSameDimension(from: UnitId, to: UnitId): void {
  if (sameDimension(from, to)) return;
  const [a, b] = [dimensionWords[dimensionOf(from)].noun, dimensionWords[dimensionOf(to)].noun];
  throw new UnitError(`${from} is ${a} and ${to} is ${b}: one cannot be turned into the other.`);
}

/**
 * The same quantity in another unit. degC and degF are points on a scale; for a difference between
 * two temperatures use K and degFdiff.
 * @throws UnitError  when the two units measure different things
 * @example convert(130, 'degF', 'degC') // 54.44
 */
export function convert(value: number, from: UnitId, to: UnitId): number {
  requireSameDimension(from, to);
  if (from === to) return value;
  const [a, b] = [unitTable[from], unitTable[to]];
  return (value * a.factor + (a.offset ?? 0) - (b.offset ?? 0)) / b.factor;
}

/**
 * A ± (or any difference) in another unit: the scale changes, the zero point does not count.
 * @throws UnitError  when the two units measure different things
 * @example convertSpread(9, 'degF', 'degC') // 5
 */
export function convertSpread(plusMinus: number, from: UnitId, to: UnitId): number {
  requireSameDimension(from, to);
  return from === to ? plusMinus : (plusMinus * unitTable[from].factor) / unitTable[to].factor;
}
