import type { Question } from '../../rulebook/rule-schema.ts';
import { choicesOf } from '../wording.ts';
import { isExactly } from './match-words.ts';
import { namedChoices, readChoice } from './read-choice.ts';
import { bare, type Reading } from './reading.ts';

const noneOfThem = /^(none|nothing|no|none of (these|them|it)|not one( of them)?)$/;
const allOfThem = /^(all|everything|all of (these|them|it)|every one|each|the lot)$/;

function partsOf(text: string): string[] {
  const spaced = /^[\d\s]+$/.test(text) ? text.trim().replace(/\s+/g, ',') : text;
  return spaced
    .split(/,|;|\band\b|\+|&/i)
    .map((part) => part.trim())
    .filter((part) => part !== '');
}

const notOfThese: Reading = {
  notUnderstood: 'I take any of these by number or words, like "1 and 3"; or "none".',
};

/** Takes several choices: numbers or words, one after the other. One that is not plain spoils the lot. */
export function readMany(question: Question, text: string): Reading {
  const typed = bare(text);
  const whole = isExactly(text, namedChoices(question));
  if (!whole && noneOfThem.test(typed)) return { sure: { kind: 'many', choices: [] } };
  if (!whole && allOfThem.test(typed)) {
    return { sure: { kind: 'many', choices: choicesOf(question).map((choice) => choice.id) } };
  }
  const picked: string[] = [];
  for (const part of whole ? [text] : partsOf(text)) {
    const one = readChoice(question, part);
    if (!('sure' in one) || one.sure.kind !== 'choice') {
      return notOfThese;
    }
    picked.push(one.sure.choice);
  }
  if (picked.length === 0) return notOfThese;
  return { sure: { kind: 'many', choices: [...new Set(picked)] } };
}
