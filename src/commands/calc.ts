import { BadInputError } from '../chemistry/bad-input-error.ts';
import { calculate } from '../chemistry/calculate.ts';
import type { Calculation, InputSpec } from '../chemistry/calculation.ts';
import { calculations } from '../chemistry/catalogue.ts';
import { calculationNamed, inputsFromWords, withoutUnit } from '../chemistry/from-words.ts';
import { OutOfRangeError } from '../chemistry/out-of-range-error.ts';
import { resultLines } from '../chemistry/result-lines.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

function example(spec: InputSpec): string {
  if (spec.choices) return spec.choices.join('|');
  if (spec.unit === 'text') return 'WORD';
  return withoutUnit.includes(spec.unit) ? 'NUMBER' : `NUMBER${spec.unit}`;
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

async function run(words: readonly string[], json: boolean): Promise<string> {
  const [name, ...rest] = words;
  if (name === undefined) return listing();
  const calculation = calculationNamed(name);
  if (rest.length === 0 && !json) return usageOf(calculation);
  const { result, inputsUsed } = calculate(calculation, inputsFromWords(calculation, rest));
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
  const lines = resultLines(calculation, result);
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
