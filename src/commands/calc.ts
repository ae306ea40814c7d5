import { BadInputError } from '../chemistry/bad-input-error.ts';
import { calculate, type Result } from '../chemistry/calculate.ts';
import type { Calculation, InputSpec } from '../chemistry/calculation.ts';
import { calculations } from '../chemistry/catalogue.ts';
import { OutOfRangeError } from '../chemistry/out-of-range-error.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { showQuantity } from '../quantity/show.ts';
import { isUnitId } from '../quantity/units.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

type Given = Record<string, { value: number | string; plusMinus?: number }>;

function example(spec: InputSpec): string {
  if (spec.choices) return spec.choices.join('|');
  return spec.unit === 'text' ? 'WORD' : spec.unit === '1' ? 'NUMBER' : `NUMBER${spec.unit}`;
}

function readValue(key: string, spec: InputSpec, typed: string): Given[string] {
  if (spec.unit === 'text' || !isUnitId(spec.unit)) {
    const choice = spec.choices?.find((one) => one.toLowerCase() === typed.toLowerCase());
    return { value: choice ?? typed };
  }
  const read = readQuantity(typed, { unit: spec.unit });
  if ('problem' in read) throw new BadInputError(key, `"${key}=${typed}": ${read.say}`);
  if (read.typed.unitAssumed && spec.unit !== '1' && spec.unit !== 'money') {
    throw new BadInputError(
      key,
      `"${key}=${typed}" needs its unit, like ${key}=${typed.trim()}${spec.unit}.`,
    );
  }
  return read.plusMinus === undefined
    ? { value: read.value }
    : { value: read.value, plusMinus: read.plusMinus };
}

function readInputs(calculation: Calculation, words: readonly string[]): Given {
  const given: Given = {};
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 1)
      throw new BadInputError(word, `"${word}" is no input; write them as key=value, like oil=40gal.`);
    const key = word.slice(0, at);
    if (key in given) throw new BadInputError(key, `"${key}" is given twice.`);
    const spec = calculation.inputs[key];
    // An unknown key is refused by the calculation itself, which lists the right ones.
    given[key] = spec ? readValue(key, spec, word.slice(at + 1)) : { value: word.slice(at + 1) };
  }
  return given;
}

function found(name: string): Calculation {
  const calculation = Object.hasOwn(calculations, name) ? calculations[name] : undefined;
  if (calculation) return calculation;
  throw new BadInputError(
    name,
    `There is no calculation "${name}". There are: ${Object.keys(calculations).join(', ')}.`,
  );
}

function listing(): string {
  const lines = Object.values(calculations).map(({ name, about }) => `  ${name.padEnd(14)} ${about}`);
  return `batchside calc NAME key=value ... [--json]\n\n${lines.join('\n')}\n`;
}

function usageOf(calculation: Calculation): string {
  const inputs = Object.entries(calculation.inputs).map(([key, spec]) => {
    const without =
      spec.default !== undefined
        ? ` (without it: ${spec.default})`
        : spec.optional
          ? ' (may be left out)'
          : '';
    const instead = spec.insteadOf ? ` (instead of ${spec.insteadOf})` : '';
    return `  ${`${key}=${example(spec)}`.padEnd(26)} ${spec.about}${without}${instead}`;
  });
  const outputs = Object.entries(calculation.outputs).map(
    ([key, spec]) => `  ${key.padEnd(26)} ${spec.about} [${spec.unit}]`,
  );
  return [
    `${calculation.name}: ${calculation.about}`,
    '',
    'takes',
    ...inputs,
    '',
    'gives',
    ...outputs,
    '',
  ].join('\n');
}

function shown(key: string, result: Result, digits: number | undefined): string {
  const unit = isUnitId(result.unit) ? result.unit : '1';
  const options =
    result.plusMinus > 0 ? { plusMinus: result.plusMinus } : digits === undefined ? {} : { digits };
  const most = result.biggest ? `   most of the ± from ${result.biggest}` : '';
  return `  ${key.padEnd(22)} ${showQuantity(result.value, unit, options)}${most}`;
}

async function run(words: readonly string[], json: boolean): Promise<string> {
  const [name, ...rest] = words;
  if (name === undefined) return listing();
  const calculation = found(name);
  if (rest.length === 0 && !json) return usageOf(calculation);
  const { result, inputsUsed } = calculate(calculation, readInputs(calculation, rest));
  const { sources } = await openBook(undefined);
  const cited = calculation.sources.map((id) => ({ id, cite: sources[id]?.cite ?? id }));
  if (json) {
    const inputs = Object.fromEntries(
      Object.entries(inputsUsed).map(([key, { value, unit, plusMinus, from }]) => [
        key,
        { value, unit, plusMinus, from },
      ]),
    );
    const results = Object.fromEntries(
      Object.entries(result).map(([key, { value, unit, plusMinus }]) => [key, { value, unit, plusMinus }]),
    );
    return `${JSON.stringify({ calc: name, inputs, result: results, sources: cited.map((one) => one.id) })}\n`;
  }
  const lines = Object.entries(result).map(([key, one]) => shown(key, one, calculation.outputs[key]?.digits));
  return [`${name}: ${calculation.about}`, ...lines, ...cited.map((one) => `  source: ${one.cite}`), ''].join(
    '\n',
  );
}

/** `batchside calc`: one calculation from the shell. Wrong input is one line and exit code 2. */
export async function calc(words: readonly string[], json: boolean): Promise<number> {
  try {
    process.stdout.write(await run(words, json));
    return 0;
  } catch (error) {
    if (!(error instanceof BadInputError || error instanceof OutOfRangeError)) throw error;
    if (!json) throw new UsageError(error.message);
    const key = error instanceof BadInputError ? error.key : error.quantity;
    process.stdout.write(
      `${JSON.stringify({ calc: words[0] ?? null, error: { key, message: error.message } })}\n`,
    );
    return 2;
  }
}
