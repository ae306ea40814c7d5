import { type Mention, readMention, type UnitHit } from './mention.ts';
import { type Token, tokenize } from './tokens.ts';

export interface NumberRead {
  value: number;
  plusMinus?: number;
  low?: number;
  high?: number;
  /** 'more than 5': the value is a limit, not a reading. */
  bound?: 'above' | 'below';
  approx: boolean;
  /** What stands behind the number. */
  rest: string;
  spanStart: number;
  spanEnd: number;
}

export interface NumberProblem {
  problem: 'no-number' | 'ambiguous';
  say: string;
  readings?: number[];
}

function firstMention(tokens: readonly Token[]): Mention<UnitHit> | undefined {
  for (let i = 0; i < tokens.length; i++) {
    const mention = readMention<UnitHit>(tokens, i, () => undefined);
    if (mention === undefined) continue;
    if (!mention.denied && mention.readings.length > 0) return mention;
    i = mention.next - 1;
  }
  return undefined;
}

export function sayEither(readings: readonly number[]): string {
  return `That can be read as ${[...new Set(readings)].join(' or ')}. Type it again so that it can only be one of them.`;
}

/**
 * The first number in a line, as people write or say it. Never throws.
 * @example readNumber('about two and a half') // { value: 2.5, approx: true, rest: '', ... }
 */
export function readNumber(text: string): NumberRead | NumberProblem {
  const tokens = tokenize(text);
  const mention = firstMention(tokens);
  if (mention === undefined)
    return { problem: 'no-number', say: 'I need a number: for example 2.5 or two and a half.' };
  const [value, ...others] = mention.readings;
  if (value === undefined || others.length > 0) {
    return { problem: 'ambiguous', say: sayEither(mention.readings), readings: [...mention.readings] };
  }
  const spanStart = tokens[mention.from]?.start ?? 0;
  const spanEnd = tokens[mention.next - 1]?.end ?? text.length;
  const read: NumberRead = {
    value,
    approx: mention.approx,
    rest: text.slice(spanEnd).trim(),
    spanStart,
    spanEnd,
  };
  if (mention.plusMinus !== undefined) {
    read.plusMinus = mention.plusMinusIsPercent
      ? (Math.abs(value) * mention.plusMinus) / 100
      : mention.plusMinus;
  }
  if (mention.low !== undefined && mention.high !== undefined)
    Object.assign(read, { low: mention.low, high: mention.high });
  if (mention.bound !== undefined) read.bound = mention.bound;
  return read;
}
