import { showQuantity } from '../quantity/show.ts';
import { isUnitId } from '../quantity/units.ts';
import type { Calculated, Result } from './calculate.ts';
import type { Calculation } from './calculation.ts';

function resultLine(key: string, result: Result, digits: number | undefined): string {
  const unit = isUnitId(result.unit) ? result.unit : '1';
  const options =
    result.plusMinus > 0 ? { plusMinus: result.plusMinus } : digits === undefined ? {} : { digits };
  const most = result.biggest ? `   most of the ± from ${result.biggest}` : '';
  return `  ${key.padEnd(22)} ${showQuantity(result.value, unit, options)}${most}`;
}

/** Results one a line, with unit and ± and what contributes most to it. */
export function resultLines(calculation: Calculation, result: Calculated['result']): string[] {
  return Object.entries(result).map(([key, one]) => resultLine(key, one, calculation.outputs[key]?.digits));
}
