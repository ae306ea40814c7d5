/** A thing that can be meant, and the ways people say it. */
export interface Named {
  id: string;
  words: readonly string[];
}

const filler =
  /\b(the|a|an|it|its|is|are|was|were|i|see|think|just|looks?|like|about|comes?|out|there|very)\b/g;

/** Lower case, without punctuation, articles or filler: what is compared when words are matched. */
export function normal(text: string): string {
  const plain = text
    .toLowerCase()
    .normalize('NFKC')
    .replace(/[’']/g, '')
    .replace(/[^\p{L}\p{N}.%/<>=+-]+/gu, ' ')
    .replace(/\.(?!\d)/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  const bare = plain.replace(filler, ' ').replace(/\s+/g, ' ').trim();
  // A line of nothing but filler still says something.
  return bare === '' ? plain : bare;
}

/** Single-character edits (a swap of neighbours counts one) between two short words. */
export function slips(one: string, other: string): number {
  let before: number[] = [];
  let row = Array.from({ length: other.length + 1 }, (_none, index) => index);
  for (let i = 1; i <= one.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= other.length; j += 1) {
      const same = one[i - 1] === other[j - 1];
      let best = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (same ? 0 : 1));
      if (one[i - 1] === other[j - 2] && one[i - 2] === other[j - 1])
        best = Math.min(best, (before[j - 2] ?? 0) + 1);
      next.push(best);
    }
    before = row;
    row = next;
  }
  return row[other.length] ?? 0;
}

/** How many slips a word of this length may hold and still be recognised. */
function allowedSlips(word: string): number {
  return word.length >= 8 ? 2 : word.length >= 4 ? 1 : 0;
}

export function isNear(typed: string, word: string): boolean {
  return Math.abs(typed.length - word.length) <= 2 && slips(typed, word) <= allowedSlips(word);
}

export function containsPhrase(text: string, phrase: string): boolean {
  return ` ${text} `.includes(` ${phrase} `);
}

/** Whether the line is, word for word, a way to say one of these things. */
export function isExactly(text: string, things: readonly Named[]): boolean {
  const typed = normal(text);
  return typed !== '' && things.some((thing) => thing.words.some((word) => normal(word) === typed));
}

export type Match = { certain: string } | { maybe: string[] } | { none: true };

/** Finds which thing is named, for looking things up; several fits and typing slips are only maybe. */
export function matchWords(text: string, things: readonly Named[]): Match {
  const typed = normal(text);
  if (typed === '') return { none: true };
  const fits = (test: (phrase: string) => boolean) =>
    things.filter((thing) => thing.words.some((word) => test(normal(word)))).map((thing) => thing.id);
  const exact = fits((phrase) => phrase === typed);
  if (exact.length === 1 && exact[0]) return { certain: exact[0] };
  const inside = longestInside(typed, things);
  if (inside.length === 1 && inside[0]) return { certain: inside[0] };
  if (inside.length > 1) return { maybe: inside };
  const begins = typed.length >= 3 ? fits((phrase) => containsPhrase(phrase, typed)) : [];
  if (begins.length === 1 && begins[0]) return { certain: begins[0] };
  if (begins.length > 1) return { maybe: begins };
  const near = fits((phrase) => isNear(typed, phrase));
  return near.length > 0 ? { maybe: near } : { none: true };
}

/** Things with a phrase inside the text; of overlapping phrases only those that explain most of it. */
function longestInside(typed: string, things: readonly Named[]): string[] {
  const found = things.flatMap((thing) =>
    thing.words
      .map(normal)
      .filter((phrase) => phrase !== '' && containsPhrase(typed, phrase))
      .map((phrase) => ({ id: thing.id, phrase })),
  );
  const kept = found.filter(
    (one) =>
      !found.some(
        (other) => other.phrase.length > one.phrase.length && containsPhrase(other.phrase, one.phrase),
      ),
  );
  return [...new Set(kept.map((one) => one.id))];
}

/** The one thing that is meant, slips allowed; nothing when none or several fit. */
export function closest(text: string, things: readonly Named[]): string | undefined {
  const match = matchWords(text, things);
  if ('certain' in match) return match.certain;
  return 'maybe' in match && match.maybe.length === 1 ? match.maybe[0] : undefined;
}
