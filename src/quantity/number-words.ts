import { follows, type Token, vulgarFraction } from './tokens.ts';

export interface WordsRead {
  value: number;
  next: number;
}

const small: Record<string, number> = {
  zero: 0,
  nought: 0,
  naught: 0,
  nil: 0,
  one: 1,
  two: 2,
  three: 3,
  four: 4,
  five: 5,
  six: 6,
  seven: 7,
  eight: 8,
  nine: 9,
  ten: 10,
  eleven: 11,
  twelve: 12,
  thirteen: 13,
  fourteen: 14,
  fifteen: 15,
  sixteen: 16,
  seventeen: 17,
  eighteen: 18,
  nineteen: 19,
};
const tens: Record<string, number> = {
  twenty: 20,
  thirty: 30,
  forty: 40,
  fourty: 40,
  fifty: 50,
  sixty: 60,
  seventy: 70,
  eighty: 80,
  ninety: 90,
};
const powers: Record<string, number> = { thousand: 1e3, million: 1e6 };
export const multiples: Record<string, number> = { hundred: 100, dozen: 12, ...powers };
const parts: Record<string, number> = {
  half: 1 / 2,
  halves: 1 / 2,
  third: 1 / 3,
  quarter: 1 / 4,
  fourth: 1 / 4,
  fifth: 1 / 5,
  sixth: 1 / 6,
  eighth: 1 / 8,
  tenth: 1 / 10,
};

function lookUp(table: Record<string, number>, token: Token | undefined): number | undefined {
  return token !== undefined && Object.hasOwn(table, token.text) ? table[token.text] : undefined;
}

/** Past a hyphen that ties two words together: forty-five, two-and-a-half. */
function pastHyphen(tokens: readonly Token[], at: number): number {
  const tied = tokens[at]?.text === '-' && !tokens[at]?.spaceBefore && !tokens[at + 1]?.spaceBefore;
  return tied && tokens[at + 1]?.kind === 'word' ? at + 1 : at;
}

function belowHundred(tokens: readonly Token[], at: number): WordsRead | undefined {
  const ten = lookUp(tens, tokens[at]);
  if (ten === undefined) {
    const value = lookUp(small, tokens[at]);
    return value === undefined ? undefined : { value, next: at + 1 };
  }
  const unitAt = pastHyphen(tokens, at + 1);
  const one = lookUp(small, tokens[unitAt]);
  return one !== undefined && one > 0 && one < 10
    ? { value: ten + one, next: unitAt + 1 }
    : { value: ten, next: at + 1 };
}

function pastAnd(tokens: readonly Token[], at: number): number {
  const here = pastHyphen(tokens, at);
  return tokens[here]?.text === 'and' ? pastHyphen(tokens, here + 1) : here;
}

/** Up to 999, the article allowed before hundred: 'a hundred and thirty', 'forty-five'. */
function belowThousand(tokens: readonly Token[], at: number): WordsRead | undefined {
  const article = tokens[at]?.text === 'a' && tokens[at + 1]?.text === 'hundred';
  const first =
    article || tokens[at]?.text === 'hundred'
      ? { value: 1, next: at + (article ? 1 : 0) }
      : belowHundred(tokens, at);
  if (first === undefined || tokens[first.next]?.text !== 'hundred') return first;
  const value = first.value * 100;
  const rest = belowHundred(tokens, pastAnd(tokens, first.next + 1));
  return rest === undefined || rest.value === 0
    ? { value, next: first.next + 1 }
    : { value: value + rest.value, next: rest.next };
}

function wholeNumber(tokens: readonly Token[], at: number): WordsRead | undefined {
  const article = tokens[at]?.text === 'a' && lookUp(powers, tokens[at + 1]) !== undefined;
  const first =
    article || lookUp(powers, tokens[at]) !== undefined
      ? { value: 1, next: at + (article ? 1 : 0) }
      : belowThousand(tokens, at);
  if (first === undefined) return undefined;
  const power = lookUp(powers, tokens[first.next]);
  if (power === undefined) return first;
  const rest = belowThousand(tokens, pastAnd(tokens, first.next + 1));
  const value = first.value * power;
  return rest === undefined
    ? { value, next: first.next + 1 }
    : { value: value + rest.value, next: rest.next };
}

/** 'point five', 'point oh five' after a whole number or alone. */
function decimals(tokens: readonly Token[], at: number): WordsRead | undefined {
  if (tokens[at]?.text !== 'point') return undefined;
  let digits = '';
  let next = at + 1;
  for (; next < tokens.length && digits.length < 15; next++) {
    const digit = tokens[next]?.text === 'oh' ? 0 : lookUp(small, tokens[next]);
    if (digit === undefined || digit > 9) break;
    digits += String(digit);
  }
  return digits === '' ? undefined : { value: Number(`0.${digits}`), next };
}

/** 'half', 'a quarter', 'three quarters', 'two thirds', '½', '1/2'. A bare 'third' is an order, not a share. */
export function readShare(tokens: readonly Token[], at: number): WordsRead | undefined {
  const [first, second] = [tokens[at], tokens[pastHyphen(tokens, at + 1)]];
  const sign = vulgarFraction(first?.text ?? '');
  if (sign !== undefined) return { value: sign, next: at + 1 };
  if (first?.text === 'half' || first?.text === 'quarter')
    return { value: parts[first.text] ?? 0, next: at + 1 };
  const count = first?.text === 'a' || first?.text === 'an' ? 1 : lookUp(small, first);
  const part = lookUp(parts, second) ?? lookUp(parts, singular(second));
  if (count === undefined || part === undefined) return undefined;
  return { value: count * part, next: pastHyphen(tokens, at + 1) + 1 };
}

function singular(token: Token | undefined): Token | undefined {
  return token?.text.endsWith('s') ? { ...token, text: token.text.slice(0, -1) } : undefined;
}

/** 'and a half', 'and three quarters', 'and 1/2' behind a number. */
export function readAndShare(tokens: readonly Token[], at: number): WordsRead | undefined {
  const here = pastHyphen(tokens, at);
  if (tokens[here]?.text !== 'and') return undefined;
  const share = readShare(tokens, pastHyphen(tokens, here + 1));
  return share !== undefined && share.value < 1 ? share : undefined;
}

/** A number in words, with what may hang on it; `share` says that it is only a part of one. */
export function readNumberWords(
  tokens: readonly Token[],
  at: number,
): (WordsRead & { share: boolean }) | undefined {
  if (follows(tokens, at, 'half', 'a', 'dozen')) return { value: 6, next: at + 3, share: false };
  if (follows(tokens, at, 'a', 'dozen')) return { value: 12, next: at + 2, share: false };
  if (follows(tokens, at, 'a', 'couple')) return { value: 2, next: at + 2, share: true };
  const share = readShare(tokens, at);
  if (share !== undefined) return { ...share, share: true };
  const small = decimals(tokens, at);
  if (small !== undefined) return { ...small, share: false };
  const whole = wholeNumber(tokens, at);
  if (whole === undefined) return undefined;
  if (tokens[whole.next]?.text === 'dozen')
    return { value: whole.value * 12, next: whole.next + 1, share: false };
  const more = decimals(tokens, whole.next) ?? readAndShare(tokens, whole.next);
  return more === undefined
    ? { ...whole, share: false }
    : { value: whole.value + more.value, next: more.next, share: false };
}
