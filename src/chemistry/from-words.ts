import { readQuantity } from '../quantity/read-quantity.ts';
import { isUnitId } from '../quantity/units.ts';
import { BadInputError } from './bad-input-error.ts';
import type { Calculation, InputSpec } from './calculation.ts';
import { calculations } from './catalogue.ts';
import type { GivenInputs } from './complete-inputs.ts';

type Given = GivenInputs[string];

/** Units that nobody writes: a plain number says all. */
export const withoutUnit: readonly string[] = ['1', 'money', 'mol/mol'];

function readValue(key: string, spec: InputSpec, typed: string): Given {
  if (spec.unit === 'text' || !isUnitId(spec.unit)) {
    const choice = spec.choices?.find((one) => one.toLowerCase() === typed.toLowerCase());
    return { value: choice ?? typed };
  }
  const read = readQuantity(typed, { unit: spec.unit });
  if ('problem' in read) throw new BadInputError(key, `"${key}=${typed}": ${read.say}`);
  if (read.typed.unitAssumed && !withoutUnit.includes(spec.unit)) {
    throw new BadInputError(
      key,
      `"${key}=${typed}" needs its unit, like ${key}=${typed.trim()}${spec.unit}.`,
    );
  }
  return read.plusMinus === undefined
    ? { value: read.value }
    : { value: read.value, plusMinus: read.plusMinus };
}

/**
 * Inputs as a person writes them: `oil=40gal`, each with its unit.
 * @throws BadInputError  on a word without `=`, a key given twice, or a value that is no quantity of the right kind
 */
export function inputsFromWords(calculation: Calculation, words: readonly string[]): GivenInputs {
  const given: GivenInputs = {};
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 1) {
      throw new BadInputError(word, `"${word}" is no input; write them as key=value, like oil=40gal.`);
    }
    const key = word.slice(0, at);
    if (Object.hasOwn(given, key)) throw new BadInputError(key, `"${key}" is given twice.`);
    const spec = calculation.inputs[key];
    // An unknown key is refused by the calculation itself, which lists the right ones.
    given[key] = spec ? readValue(key, spec, word.slice(at + 1)) : { value: word.slice(at + 1) };
  }
  return given;
}

/** @throws BadInputError  naming the calculations that there are */
export function calculationNamed(name: string): Calculation {
  const calculation = Object.hasOwn(calculations, name) ? calculations[name] : undefined;
  if (calculation) return calculation;
  const known = Object.keys(calculations).join(', ');
  throw new BadInputError(name, `There is no calculation "${name}". There are: ${known}.`);
}
