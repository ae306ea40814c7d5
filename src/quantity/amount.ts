import { multiples, readAndShare, readNumberWords } from './number-words.ts';
import { readNumeral } from './numeral.ts';
import { type Token, vulgarFraction } from './tokens.ts';

/** One number as typed, with its sign. More than one reading means: ask which. */
export interface Amount {
  readings: number[];
  from: number;
  next: number;
  /** A part of one or 'a couple': 'a' or 'of a' may stand before the unit. */
  share: boolean;
  approx: boolean;
}

// 'tank 2', 'batch 14': the number is a name.
const labels = new Set('batch tank number no # step vessel drum day run test sample titration'.split(' '));

export function isLabel(token: Token | undefined): boolean {
  return token !== undefined && labels.has(token.text);
}

const largestNumerator = 99;
const largestDenominator = 64;

function digitsOnly(token: Token | undefined): number | undefined {
  return token?.kind === 'number' && /^\d{1,15}$/.test(token.text) ? Number(token.text) : undefined;
}

/** 1/2; undefined when there is no slash; no readings when it is a date or nonsense. */
function slashed(tokens: readonly Token[], at: number): { readings: number[]; next: number } | undefined {
  const top = digitsOnly(tokens[at]);
  const bottom = digitsOnly(tokens[at + 2]);
  if (top === undefined || bottom === undefined || tokens[at + 1]?.text !== '/') return undefined;
  const again = tokens[at + 3]?.text === '/' && tokens[at + 4]?.kind === 'number';
  const sound = !again && top >= 1 && top <= largestNumerator && bottom >= 2 && bottom <= largestDenominator;
  return { readings: sound ? [top / bottom] : [], next: at + (again ? 5 : 3) };
}

/** What follows whole digits and belongs to them: 2 1/2, 2½, 2 and a half, 2-1/2, 2 point five. */
function shareBehind(tokens: readonly Token[], at: number): { value: number; next: number } | undefined {
  const sign = vulgarFraction(tokens[at]?.text ?? '');
  if (sign !== undefined) return { value: sign, next: at + 1 };
  if (tokens[at]?.text === 'point') return readNumberWords(tokens, at);
  const tied = tokens[at]?.text === '-' && !tokens[at]?.spaceBefore && !tokens[at + 1]?.spaceBefore;
  const joined = tokens[at]?.text === 'and' || tied ? at + 1 : at;
  const fraction = slashed(tokens, joined);
  const value = fraction?.readings[0];
  if (fraction !== undefined && value !== undefined && value < 1) return { value, next: fraction.next };
  return readAndShare(tokens, at);
}

/** '1 000' is one thousand, or a 1 and something else: both are offered. */
function spacedThousands(tokens: readonly Token[], at: number): number[] | undefined {
  const [first, second] = [tokens[at], tokens[at + 1]];
  if (digitsOnly(first) === undefined || digitsOnly(second) === undefined) return undefined;
  if (isLabel(tokens[at - 1])) return undefined;
  if (!/^[1-9]\d{0,2}$/.test(first?.text ?? '') || !/^\d{3}$/.test(second?.text ?? '')) return undefined;
  return [Number(`${first?.text}${second?.text}`), Number(second?.text)];
}

function fromDigits(tokens: readonly Token[], at: number): Omit<Amount, 'from'> | undefined {
  const token = tokens[at];
  if (token?.kind === 'fraction') {
    return { readings: [vulgarFraction(token.text) ?? 0], next: at + 1, share: true, approx: false };
  }
  if (token?.kind !== 'number') return undefined;
  const rest = { share: false, approx: false };
  const fraction = slashed(tokens, at);
  if (fraction !== undefined) return { ...fraction, share: true, approx: false };
  const thousands = spacedThousands(tokens, at);
  if (thousands !== undefined) return { readings: thousands, next: at + 2, ...rest };
  const readings = readNumeral(token.text);
  const behind = digitsOnly(token) === undefined ? undefined : shareBehind(tokens, at + 1);
  if (behind !== undefined)
    return { readings: readings.map((r) => r + behind.value), next: behind.next, ...rest };
  const word = tokens[at + 1]?.text ?? '';
  const times = Object.hasOwn(multiples, word) ? multiples[word] : undefined;
  if (times !== undefined) return { readings: readings.map((r) => r * times), next: at + 2, ...rest };
  return { readings, next: at + 1, ...rest };
}

// 'the one on the left' counts nothing.
const pointers = new Set(
  'the this that which each every no any last first next other another only'.split(' '),
);

/** 'one thirty' may be 130, or a one and a thirty: both are offered. */
function spokenHundreds(
  tokens: readonly Token[],
  first: { value: number; next: number },
): { readings: number[]; next: number } | undefined {
  if (!Number.isInteger(first.value) || first.value < 1 || first.value > 9) return undefined;
  const second = readNumberWords(tokens, first.next);
  if (second === undefined || second.value < 10 || second.value > 99) return undefined;
  return { readings: [first.value * 100 + second.value, second.value], next: second.next };
}

function fromWords(tokens: readonly Token[], at: number): Omit<Amount, 'from'> | undefined {
  if (tokens[at]?.kind !== 'word') return undefined;
  if (tokens[at]?.text === 'one' && pointers.has(tokens[at - 1]?.text ?? '')) return undefined;
  const words = readNumberWords(tokens, at);
  if (words === undefined) return undefined;
  const hundreds = spokenHundreds(tokens, words);
  if (hundreds !== undefined) return { ...hundreds, share: false, approx: false };
  return {
    readings: [words.value],
    next: words.next,
    share: words.share,
    approx: tokens[at + 1]?.text === 'couple',
  };
}

/** B100 is a name, not a hundred; pH7 is seven; 1h20 and 2x20 go on counting. */
function isPartOfName(tokens: readonly Token[], at: number): boolean {
  const before = tokens[at - 1];
  if (tokens[at]?.spaceBefore || before?.kind !== 'word') return false;
  return before.text !== 'ph' && tokens[at - 2]?.kind !== 'number';
}

function signAt(tokens: readonly Token[], at: number): { negative: boolean; next: number } {
  const [token, after] = [tokens[at], tokens[at + 1]];
  if (token?.text === 'minus' || token?.text === 'negative') return { negative: true, next: at + 1 };
  const tight =
    after !== undefined && !after.spaceBefore && (after.kind === 'number' || after.kind === 'fraction');
  if (tight && token?.text === '-') return { negative: true, next: at + 1 };
  return { negative: false, next: tight && token?.text === '+' ? at + 1 : at };
}

/** 2nd, 3 pm, 5 o'clock: an order or a time of day, not a quantity. */
function isNoQuantity(tokens: readonly Token[], next: number): boolean {
  const after = tokens[next];
  if (after === undefined) return false;
  if (!after.spaceBefore && /^(st|nd|rd|th)$/.test(after.text)) return true;
  const dotted =
    /^[ap]$/.test(after.text) && tokens[next + 1]?.text === '.' && tokens[next + 2]?.text === 'm';
  return dotted || /^(am|pm|o'clock|oclock)$/.test(after.text);
}

/** The number that starts at this token, sign included; undefined when none does. */
export function readAmount(tokens: readonly Token[], at: number): Amount | undefined {
  const sign = signAt(tokens, at);
  if (isPartOfName(tokens, sign.next)) return undefined;
  const read = fromDigits(tokens, sign.next) ?? fromWords(tokens, sign.next);
  if (read === undefined) return undefined;
  if (isNoQuantity(tokens, read.next)) return { ...read, readings: [], from: at };
  const readings = sign.negative ? read.readings.map((r) => -r) : read.readings;
  return { ...read, readings, from: at };
}
