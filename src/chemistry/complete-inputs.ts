import { BadInputError } from './bad-input-error.ts';
import type { Calculation, InputSpec, InputValues } from './calculation.ts';

export type GivenInputs = Record<string, { value: number | string; plusMinus?: number }>;

function requireKnownKeys(calculation: Calculation, given: GivenInputs): void {
  for (const key of Object.keys(given)) {
    if (Object.hasOwn(calculation.inputs, key)) continue;
    const known = Object.keys(calculation.inputs).join(', ');
    throw new BadInputError(key, `"${calculation.name}" has no input "${key}". It takes: ${known}.`);
  }
}

function requireGoodValue(key: string, spec: InputSpec, value: number | string): void {
  if (spec.unit === 'text') {
    if (typeof value !== 'string') throw new BadInputError(key, `"${key}" needs a word: ${spec.about}.`);
    if (spec.choices && !spec.choices.includes(value)) {
      throw new BadInputError(key, `"${key}" is ${value}; use one of: ${spec.choices.join(', ')}.`);
    }
    return;
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    const unit = spec.unit === '1' ? '' : ` in ${spec.unit}`;
    throw new BadInputError(key, `"${key}" needs a number${unit}: ${spec.about}.`);
  }
}

function requireGoodPlusMinus(key: string, plusMinus: number | undefined): void {
  if (plusMinus !== undefined && !(Number.isFinite(plusMinus) && plusMinus >= 0)) {
    throw new BadInputError(key, `The ± of "${key}" must be zero or more.`);
  }
}

function missing(calculation: Calculation, key: string, spec: InputSpec): BadInputError {
  const stand = Object.entries(calculation.inputs).find(([, other]) => other.insteadOf === key)?.[0];
  const or = stand ? ` (or "${stand}")` : '';
  const words = spec.choices ? ` One of: ${spec.choices.join(', ')}.` : '';
  return new BadInputError(key, `"${calculation.name}" needs "${key}"${or}: ${spec.about}.${words}`);
}

function standIns(calculation: Calculation, given: GivenInputs): Set<string> {
  const replaced = new Set<string>();
  for (const [key, spec] of Object.entries(calculation.inputs)) {
    if (!spec.insteadOf || !Object.hasOwn(given, key)) continue;
    if (Object.hasOwn(given, spec.insteadOf)) {
      throw new BadInputError(
        key,
        `Give "${key}" or "${spec.insteadOf}", not both: each stands for the other.`,
      );
    }
    replaced.add(spec.insteadOf);
  }
  return replaced;
}

/** Checks what was given and fills in the defaults; BadInputError says what would be right. */
export function completeInputs(calculation: Calculation, given: GivenInputs): InputValues {
  requireKnownKeys(calculation, given);
  const replaced = standIns(calculation, given);
  const values: InputValues = {};
  for (const [key, spec] of Object.entries(calculation.inputs)) {
    const input = Object.hasOwn(given, key) ? given[key] : undefined;
    if (input) {
      requireGoodValue(key, spec, input.value);
      requireGoodPlusMinus(key, input.plusMinus);
      values[key] = input.value;
    } else if (!replaced.has(key)) {
      if (spec.default !== undefined) values[key] = spec.default;
      else if (!spec.optional && !spec.insteadOf) throw missing(calculation, key, spec);
    }
  }
  return values;
}
