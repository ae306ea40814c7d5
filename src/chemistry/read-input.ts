import { BadInputError } from './bad-input-error.ts';
import type { InputValues } from './calculation.ts';

/** The number under this key; BadInputError when there is none. */
export function numberOf(inputs: InputValues, key: string): number {
  const value = inputs[key];
  if (typeof value !== 'number') throw new BadInputError(key, `"${key}" needs a number.`);
  return value;
}

/** The number under this key, or undefined when the key was left out. */
export function optionalNumberOf(inputs: InputValues, key: string): number | undefined {
  return inputs[key] === undefined ? undefined : numberOf(inputs, key);
}

/** The text under this key; BadInputError when there is none. */
export function textOf(inputs: InputValues, key: string): string {
  const value = inputs[key];
  if (typeof value !== 'string') throw new BadInputError(key, `"${key}" needs a word.`);
  return value;
}

/** The text under this key as one of the allowed words; BadInputError names the words that would do. */
export function choiceOf<const Word extends string>(
  inputs: InputValues,
  key: string,
  words: readonly Word[],
): Word {
  const value = textOf(inputs, key);
  const found = words.find((word) => word === value);
  if (found === undefined)
    throw new BadInputError(key, `"${key}" is ${value}; use one of: ${words.join(', ')}.`);
  return found;
}
