import type { Gallon } from './read-unit.ts';
import { unitTable } from './unit-table.ts';
import { type Dimension, dimensionOf, type UnitId, unitsFor } from './units.ts';

export interface QuantityOptions {
  /** The unit of the result; its dimension is what is asked for. */
  unit?: UnitId;
  /** Enough when any unit of it will do: the result is in `defaultUnit`, or the base unit. */
  dimension?: Dimension;
  /** Taken when no unit is typed; `unit` when absent. */
  defaultUnit?: UnitId;
  /** Which gallon, pint, quart and fluid ounce is meant when the line does not say. */
  gallon?: Gallon;
  /** In the result's unit: picks the reading when a number can be read two ways. */
  plausible?: readonly [low: number, high: number];
}

/** What a line is read for. */
export interface Target {
  dimension: Dimension;
  unit: UnitId;
  defaultUnit: UnitId | undefined;
  plausible: readonly [number, number] | undefined;
}

export function targetOf(options: QuantityOptions): Target {
  const named = options.unit ?? options.defaultUnit;
  const dimension = named === undefined ? (options.dimension ?? 'count') : dimensionOf(named);
  const base = unitsFor(dimension).find((id) => unitTable[id].factor === 1) ?? '1';
  const only = unitsFor(dimension).length === 1 ? base : undefined;
  return {
    dimension,
    unit: named ?? base,
    defaultUnit: options.defaultUnit ?? options.unit ?? only,
    plausible: options.plausible,
  };
}
