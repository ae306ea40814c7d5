import { isNear, type Named, normal } from './match-words.ts';

/** What a line says of the choices offered. */
export interface Found {
  /** Named and not denied. */
  live: string[];
  /** Named only to say that it is not so. */
  denied: string[];
  /** Words that belong to none of the choices named. */
  left: string[];
}

/** A choice named in a line: its words run from one place of the line to another. */
export interface Hit {
  id: string;
  from: number;
  to: number;
}

const negators = new Set(
  `no not never none without nothing isnt arent wasnt werent dont doesnt didnt hasnt havent cant cannot neither nor`.split(
    ' ',
  ),
);
const ceased = new Set('stopped gone ended finished ceased vanished disappeared anymore'.split(' '));
/** Where what was denied before no longer reaches: a mark, or a word that turns the sentence. */
const border = '|';
const turns = new Set('but now then instead rather only just however'.split(' '));

/** Words that add nothing to a choice. */
export const light: ReadonlySet<string> = new Set(
  `and or so now again still already all at in on of to from for with this that these those them they i we you my our me im
  ive here there then just only really quite pretty definitely certainly clearly plain simply both one ones some any thing things
  yes yeah yep ok right well oh um er be been being has have had do did does got get gets getting came come coming comes goes going went
  look looks looked looking see seen show shows showing says say reads read seems as it its the a an is are was were
  gave give gives am please thanks thank today same fully completely whole entirely totally properly perfectly nicely mine
  under over into onto through inside up down by time times first since until what which how who each every`.split(
    /\s+/,
  ),
);

/** The words of a line in order, with borders where a clause ends. */
function wordsOf(text: string): string[] {
  const marked = text.replace(/[,;:()!?]+|\.(?!\d)|[–—]| - |\bjust\b/gi, ' zzborder ');
  return normal(marked)
    .split(' ')
    .flatMap((word) => (word === 'zzborder' ? [border] : turns.has(word) ? [border, word] : [word]));
}

function runsAt(words: readonly string[], at: number, phrase: readonly string[]): number | undefined {
  let place = at;
  for (const word of phrase) {
    while (words[place] === border && place > at) place += 1;
    if (words[place] !== word) return undefined;
    place += 1;
  }
  return place;
}

function hitsIn(words: readonly string[], things: readonly Named[]): Hit[] {
  const hits: Hit[] = [];
  for (const { id, words: ways } of things) {
    for (const way of ways) {
      const phrase = normal(way.replace(/[,;:()]/g, ' ')).split(' ');
      for (let from = 0; from < words.length; from += 1) {
        const to = runsAt(words, from, phrase);
        // "no" in front of another word denies that word; it is no answer of its own.
        const next = words[to ?? 0] ?? border;
        const only = phrase.every((word) => negators.has(word)) && next !== border && !light.has(next);
        if (to !== undefined && !only) hits.push({ id, from, to });
      }
    }
  }
  const within = (one: Hit, other: Hit) =>
    other.from <= one.from && other.to >= one.to && other.to - other.from > one.to - one.from;
  return hits.filter((one) => !hits.some((other) => within(one, other)));
}

function isDenied(words: readonly string[], hit: Hit): boolean {
  for (let at = hit.from - 1; at >= 0 && words[at] !== border; at -= 1) {
    if (negators.has(words[at] ?? '')) return true;
  }
  for (let at = hit.to; at < words.length && words[at] !== border; at += 1) {
    if (ceased.has(words[at] ?? '')) return true;
  }
  return false;
}

/** The choices named and not denied, in the order of the line, each with how many words name it. */
export function namedIn(text: string, things: readonly Named[]): { id: string; length: number }[] {
  const words = wordsOf(text);
  return hitsIn(words, things)
    .filter((hit) => !isDenied(words, hit))
    .sort((one, other) => one.from - other.from)
    .map(({ id, from, to }) => ({
      id,
      length: words.slice(from, to).filter((word) => word !== border).length,
    }));
}

/** Finds the choices named in a line, which of them are denied, and the words that stay unexplained. */
export function findPhrases(text: string, things: readonly Named[], known: ReadonlySet<string>): Found {
  const words = wordsOf(text);
  const hits = hitsIn(words, things);
  const denied = hits.filter((hit) => isDenied(words, hit));
  const live = hits.filter((hit) => !denied.includes(hit));
  const used = new Set(
    hits.flatMap(({ from, to }) => Array.from({ length: to - from }, (_no, k) => from + k)),
  );
  const left = words.filter((word, at) => {
    if (used.has(at) || word === border || known.has(word) || light.has(word)) return false;
    return !(denied.length > 0 && (negators.has(word) || ceased.has(word) || /^(longer|more)$/.test(word)));
  });
  const ids = (of: Hit[]) => [...new Set(of.map((hit) => hit.id))];
  return { live: ids(live), denied: ids(denied), left };
}

/** What makes a part of a phrase say something else than the whole, wherever it stands or right behind. */
const turning = /^(but|except|missing|else|never|nobody)$/;
const turningNext = /^(and|not|no|without|something|none)$/;
const denying = /^(not|no|without|never)$/;

interface Part {
  phrase: string[];
  /** Words of the first piece of the phrase, up to a comma, a colon or an "or". */
  first: number;
  at: number;
  length: number;
}

/** Where the typed words stand in a phrase; a "yes, " or "no, " in front may be left out. */
function partOf(way: string, typed: readonly string[]): Part | undefined {
  const lead = /^(yes|no)\s*,\s*/.exec(way)?.[0];
  const rest = lead && !/^(yes|no)$/.test(typed[0] ?? '') ? way.slice(lead.length) : way;
  const phrase = normal(rest).split(' ');
  const at = phrase.findIndex((_word, from) => typed.every((word, k) => phrase[from + k] === word));
  if (at < 0) return undefined;
  const [first = ''] = rest.split(/[,;:(]|\s+or\s+/);
  return { phrase, first: normal(first).split(' ').length, at, length: typed.length };
}

/** Whether a part begins its phrase, leaves out no more than one telling word of its first piece, and nothing turns. */
function isBegun({ phrase, first, at, length }: Part): boolean {
  if (at !== 0) return false;
  const behind = phrase.slice(length);
  const piece = phrase.slice(length, Math.max(first, length));
  const next = phrase.slice(length, Math.max(first, length) + 1);
  if (behind.some((word) => turning.test(word)) || next.some((word) => turningNext.test(word))) return false;
  return piece.filter((word) => !light.has(word)).length <= 1;
}

function isPart({ phrase, at, length }: Part): boolean {
  return (
    at === 0 || ![...phrase.slice(0, at), ...phrase.slice(at + length)].some((word) => denying.test(word))
  );
}

/** A bare yes or no begins "yes, two in a row" and "no not yet"; "no flow" is no no. */
function isLed(word: string, way: string): boolean {
  return new RegExp(`^${word}(,| (it|i|they|all|both|two|not)\\b)`).test(way);
}

/** Choices of which the line is a part: surely, when it begins one and the rest only adds to it. */
export function findFragments(text: string, things: readonly Named[]): { sure: string[]; maybe: string[] } {
  const typed = normal(text).split(' ');
  const short = typed.join(' ');
  const yesOrNo = /^(yes|no)$/.test(short);
  if (short.length < 3 && !/^(no|ok|on)$/.test(short)) return { sure: [], maybe: [] };
  // An id is a name, not a sentence: half of one says nothing.
  const ways = things.flatMap(({ id, words }) =>
    words
      .filter((way) => way !== id.replaceAll('-', ' '))
      .map((way) => ({ id, way, part: partOf(way, typed) })),
  );
  const found = ways.flatMap(({ id, way, part }) => {
    if (!part) return [];
    if (yesOrNo) return isLed(short, way) ? [{ id, sure: true }] : [];
    const sure = short !== 'on' && isBegun(part);
    return sure || isPart(part) ? [{ id, sure }] : [];
  });
  const ids = (sure: boolean) => [...new Set(found.filter((one) => one.sure === sure).map((one) => one.id))];
  return { sure: ids(true), maybe: ids(false) };
}

/** The line with its likely slips of typing mended; the same line when nothing is near. */
export function mendSlips(text: string, things: readonly Named[], known: ReadonlySet<string>): string {
  const vocabulary = new Set(
    things.flatMap((thing) => thing.words.flatMap((word) => normal(word).split(' '))),
  );
  return normal(text)
    .split(' ')
    .map((word) => {
      if (word.length < 4 || vocabulary.has(word) || known.has(word) || light.has(word)) return word;
      const near = [...vocabulary].filter((other) => other.length >= 4 && isNear(word, other));
      return near.length === 1 && near[0] ? near[0] : word;
    })
    .join(' ');
}
