import type { Question } from '../../rulebook/rule-schema.ts';
import type { Answer } from '../events.ts';
import { choicesOf } from '../wording.ts';
import { isExactly, isNear, type Named, normal } from './match-words.ts';
import { readBands } from './read-bands.ts';
import { isHalfMeant, leavesOut } from './read-doubtful.ts';
import { findFragments, findPhrases, mendSlips } from './read-phrases.ts';
import type { Reading } from './reading.ts';

export function listChoices(question: Question): string {
  return choicesOf(question)
    .map((choice, index) => `${index + 1} ${choice.say}`)
    .join(', ');
}

export function namedChoices(question: Question): Named[] {
  return choicesOf(question).map(({ id, say, also }) => ({
    id,
    words: [say, id.replaceAll('-', ' '), ...also],
  }));
}

/** Words of the question itself, which a line may repeat. */
export function wordsOfQuestion({ ask, id, short = '' }: Question): Set<string> {
  return new Set(normal(`${ask} ${short} ${id.replaceAll('-', ' ')}`).split(' '));
}

/** One of some named things, as a line names it. */
export type Picked =
  | { sure: string }
  | { likely: string; because: 'slip' | 'half-meant' | 'more-said' | 'part' }
  | { fault: 'left-out' | 'denied'; of: string[] }
  | { several: string[] }
  | { none: true };

function exactly(text: string, things: readonly Named[]): string[] {
  return things.filter((thing) => isExactly(text, [thing])).map((thing) => thing.id);
}

/** A word without the ending that changes nothing for us: pops, popped, loudly. */
function stem(word: string): string {
  return word.replace(/(?<=...)(ly|ing|ed|es|s)$/, '');
}

/** Word for word, or only after small words were left out: then it must not begin another phrase as well. */
function isPlainlyExact(text: string, id: string, things: readonly Named[]): boolean {
  const typed = text
    .toLowerCase()
    .replace(/[.!?]+$/, '')
    .trim();
  const own = things.find((thing) => thing.id === id)?.words ?? [];
  if (own.some((word) => word.toLowerCase() === typed)) return true;
  const begun = `${normal(text)} `;
  return !things.some(
    (thing) => thing.id !== id && thing.words.some((word) => normal(word).startsWith(begun)),
  );
}

function pickFound(text: string, things: readonly Named[], known: ReadonlySet<string>): Picked | undefined {
  const exact = exactly(text, things).filter((id) => isPlainlyExact(text, id, things));
  const found = findPhrases(text, things, known);
  if (exact.length === 0 && exactly(text, things).length > 0) return undefined;
  const live = exact.length === 1 ? exact : found.live;
  const [only] = live;
  if (only === undefined) return found.denied.length > 0 ? { fault: 'denied', of: found.denied } : undefined;
  if (live.length > 1) return { several: live };
  const own = things.find((thing) => thing.id === only)?.words ?? [];
  if (leavesOut(text, own)) return { fault: 'left-out', of: [only] };
  if (isHalfMeant(text, own)) return { likely: only, because: 'half-meant' };
  if (exact.length === 1) return { sure: only };
  const ownWords = new Set(own.flatMap((word) => normal(word).split(' ').map(stem)));
  return found.left.every((word) => ownWords.has(stem(word)))
    ? { sure: only }
    : { likely: only, because: 'more-said' };
}

/**
 * Finds the one thing that a line means. Sure only when it is named, not denied, and nothing else is said that
 * could change it.
 */
export function pick(text: string, things: readonly Named[], asked: ReadonlySet<string>): Picked {
  const offered = new Set(things.flatMap((thing) => thing.words.flatMap((word) => normal(word).split(' '))));
  // A word of the question explains nothing where the choices use it too.
  const known = new Set([...asked].filter((word) => !offered.has(word)));
  const found = pickFound(text, things, known);
  if (found) return found;
  const part = findFragments(text, things);
  const [begun] = part.sure;
  const all = [...new Set([...part.sure, ...part.maybe])];
  if (all.length === 1 && begun) return { sure: begun };
  if (all.length === 1 && all[0]) return { likely: all[0], because: 'part' };
  if (all.length > 1) return { several: all };
  const near = things.filter((thing) => thing.words.some((word) => isNear(normal(text), normal(word))));
  if (near.length > 1) return { several: near.map((thing) => thing.id) };
  if (near.length === 1 && near[0]) return { likely: near[0].id, because: 'slip' };
  const mended = mendSlips(text, things, known);
  const again = mended === normal(text) ? undefined : pickFound(mended, things, known);
  if (again && 'sure' in again) return { likely: again.sure, because: 'slip' };
  return again ?? { none: true };
}

const asking = {
  slip: 'Did you mean ',
  'half-meant': 'Have you looked, and is it so: ',
  'more-said': 'Shall I write ',
  part: 'Did you mean ',
};

export function doubted(because: keyof typeof asking, say: string, meant: Answer): Reading {
  return { says: `${asking[because]}"${say}"?`, meant };
}

function byNumber(question: Question, text: string): Reading | undefined {
  const number = /^\(?(?:#|no\.? ?|number |choice |option )?(\d{1,2})[.)]*$/i.exec(text.trim())?.[1];
  if (number === undefined) return undefined;
  // The tenth choice has the key 0.
  const picked = choicesOf(question)[number === '0' ? 9 : Number(number) - 1];
  if (picked) return { sure: { kind: 'choice', choice: picked.id } };
  const last = choicesOf(question).length;
  return { notUnderstood: `There is no choice ${number}; I take 1 to ${last}, or the words.` };
}

export function readChoice(question: Question, text: string): Reading {
  const banded = readBands(question, text);
  if (banded) return banded;
  const named = namedChoices(question);
  const numbered = isExactly(text, named) ? undefined : byNumber(question, text);
  if (numbered) return numbered;
  const sayOf = (id: string) => choicesOf(question).find((choice) => choice.id === id)?.say ?? id;
  const picked = pick(text, named, wordsOfQuestion(question));
  if ('sure' in picked) return { sure: { kind: 'choice', choice: picked.sure } };
  if ('likely' in picked) {
    return doubted(picked.because, sayOf(picked.likely), { kind: 'choice', choice: picked.likely });
  }
  if ('several' in picked)
    return { notUnderstood: `Several fit: ${picked.several.map(sayOf).join(', ')}. Which one?` };
  if ('none' in picked)
    return {
      notUnderstood: 'I cannot tell which of these it is. Its number, or its words; or say "not sure".',
    };
  const opening =
    picked.fault === 'denied'
      ? 'That says what it is not.'
      : `You leave something out of "${picked.of.map(sayOf).join(', ')}".`;
  return { notUnderstood: `${opening} Which of these is it?` };
}
