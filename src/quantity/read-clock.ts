import { readNumberWords } from './number-words.ts';
import { follows, type Token, tokenize } from './tokens.ts';

export interface ClockRead {
  hour: number;
  minute: number;
  /** Written on a twelve-hour clock without saying which half of the day: 2:35 may be 14:35. */
  ambiguous12h: boolean;
}

export interface ClockProblem {
  /** One plain sentence: what would be right. */
  problem: string;
}

interface Raw {
  hour: number;
  minute: number;
  /** 14:35, 02:35 and 1435 are surely of the 24-hour clock. */
  surely24h: boolean;
  next: number;
}

const example = 'for example 14:35 or 2:35 pm';

function raw(hour: string, minute: string, next: number): Raw {
  return {
    hour: Number(hour),
    minute: Number(minute),
    surely24h: hour.startsWith('0') || Number(hour) > 12,
    next,
  };
}

function withColon(tokens: readonly Token[], at: number): Raw | undefined {
  const token = tokens[at];
  if (token?.kind !== 'clock') return undefined;
  const [hour = '', minute = ''] = token.text.split(':');
  return raw(hour, minute, at + 1);
}

/** 14.35, 1435 and 235; not 2,35 and not 2.5. */
function bareDigits(tokens: readonly Token[], at: number): Raw | undefined {
  const token = tokens[at];
  if (token?.kind !== 'number') return undefined;
  const parts = /^(\d{1,2})\.(\d{2})$/.exec(token.text) ?? /^(\d{1,2})(\d{2})$/.exec(token.text);
  return parts === null ? undefined : raw(parts[1] ?? '', parts[2] ?? '', at + 1);
}

/** A whole number below 60, in digits or words. */
function small(
  tokens: readonly Token[],
  at: number,
): { value: number; digits: string; next: number } | undefined {
  const token = tokens[at];
  if (token?.kind === 'number')
    return /^\d{1,2}$/.test(token.text)
      ? { value: Number(token.text), digits: token.text, next: at + 1 }
      : undefined;
  const words =
    token?.kind === 'word' && !/^(a|an|half|quarter|point)$/.test(token.text)
      ? readNumberWords(tokens, at)
      : undefined;
  if (words === undefined || !Number.isInteger(words.value) || words.value > 59) return undefined;
  return { value: words.value, digits: '', next: words.next };
}

function hourAt(tokens: readonly Token[], at: number): { hour: number; next: number } | undefined {
  if (/^(noon|midday)$/.test(tokens[at]?.text ?? '')) return { hour: 12, next: at + 1 };
  if (tokens[at]?.text === 'midnight') return { hour: 24, next: at + 1 };
  const hour = small(tokens, at);
  return hour === undefined ? undefined : { hour: hour.value, next: hour.next };
}

function minutesBeside(tokens: readonly Token[], at: number): { minutes: number; next: number } | undefined {
  const start = /^(a|an)$/.test(tokens[at]?.text ?? '') ? at + 1 : at;
  if (tokens[start]?.text === 'quarter') return { minutes: 15, next: start + 1 };
  if (tokens[start]?.text === 'half') return { minutes: 30, next: start + 1 };
  const count = small(tokens, start);
  if (count === undefined) return undefined;
  const named = /^(min|mins|minute|minutes)$/.test(tokens[count.next]?.text ?? '');
  return { minutes: count.value, next: named ? count.next + 1 : count.next };
}

/** 'a quarter past two', 'ten to three', 'half past three'. */
function relative(tokens: readonly Token[], at: number): Raw | undefined {
  const beside = minutesBeside(tokens, at);
  const way = tokens[beside?.next ?? -1]?.text ?? '';
  const past = /^(past|after|gone)$/.test(way);
  if (beside === undefined || !(past || /^(to|before|till|til|of)$/.test(way))) return undefined;
  const hour = hourAt(tokens, beside.next + 1);
  if (hour === undefined) return undefined;
  const surely24h = hour.hour > 12 || /^(noon|midday)$/.test(tokens[beside.next + 1]?.text ?? '');
  const total = hour.hour * 60 + (past ? beside.minutes : -beside.minutes);
  // Before one o'clock comes twelve, on a twelve-hour clock; before midnight, the day before.
  const minutes = total < 60 && hour.hour === 1 ? total + 720 : total;
  const inDay = hour.hour > 24 ? minutes : (minutes + 1440) % 1440;
  return { hour: Math.floor(inDay / 60), minute: inDay % 60, surely24h, next: hour.next };
}

const halfDay = /^(am|pm|a|p)$/;
const dayParts = new Set(['morning', 'afternoon', 'evening', 'night', 'tonight']);

/** '2 pm', 'two o'clock', 'two thirty', '14h35': a bare '2' is no clock time. */
function spoken(tokens: readonly Token[], at: number): Raw | undefined {
  const hour = small(tokens, at);
  if (hour === undefined) return undefined;
  const surely24h = hour.digits.startsWith('0') || hour.value > 12;
  const after = tokens[hour.next];
  if (/^o'?clock$/.test(after?.text ?? ''))
    return { hour: hour.value, minute: 0, surely24h, next: hour.next + 1 };
  if (after?.text === 'h' && hour.digits !== '') {
    const minute = small(tokens, hour.next + 1);
    return {
      hour: hour.value,
      minute: minute?.value ?? 0,
      surely24h: true,
      next: minute?.next ?? hour.next + 1,
    };
  }
  const oh = /^(oh|o)$/.test(after?.text ?? '') ? hour.next + 1 : hour.next;
  const minute = hour.digits === '' ? small(tokens, oh) : undefined;
  const enough = minute !== undefined && (oh > hour.next ? minute.value < 10 : minute.value >= 10);
  if (enough && hour.value <= 24)
    return { hour: hour.value, minute: minute.value, surely24h, next: minute.next };
  const half = halfOfDay(tokens, hour.next, true);
  return half === undefined ? undefined : { hour: hour.value, minute: 0, surely24h, next: hour.next };
}

/** am or pm, from 'pm', 'p.m.' or 'in the afternoon'. */
function halfOfDay(tokens: readonly Token[], at: number, directly: boolean): 'am' | 'pm' | undefined {
  const [mark, second, third] = [
    tokens[at]?.text ?? '',
    tokens[at + 1]?.text ?? '',
    tokens[at + 2]?.text ?? '',
  ];
  if (halfDay.test(mark)) {
    if (mark.length === 2) return mark === 'am' ? 'am' : 'pm';
    const dotted = second === '.' && third === 'm';
    if (dotted || second === 'm') return mark === 'a' ? 'am' : 'pm';
  }
  const part = tokens
    .slice(at, directly ? at + 4 : undefined)
    .find((token) => dayParts.has(token.text))?.text;
  if (part === undefined) return undefined;
  return part === 'morning' ? 'am' : 'pm';
}

function named(tokens: readonly Token[], at: number): ClockRead | undefined {
  if (/^(noon|midday)$/.test(tokens[at]?.text ?? '')) return { hour: 12, minute: 0, ambiguous12h: false };
  if (follows(tokens, at, 'midnight')) return { hour: 0, minute: 0, ambiguous12h: false };
  return undefined;
}

function impossible(): ClockProblem {
  return { problem: `There is no such time of day: give hours and minutes, ${example}.` };
}

function settle(raw: Raw, half: 'am' | 'pm' | undefined): ClockRead | ClockProblem {
  const { hour, minute, surely24h } = raw;
  if (hour > 24 || minute > 59 || (hour === 24 && minute > 0)) return impossible();
  if (half === undefined)
    return { hour: hour % 24, minute, ambiguous12h: !surely24h && hour >= 1 && hour <= 12 };
  if (hour > 12 && half === 'pm') return { hour: hour % 24, minute, ambiguous12h: false };
  if (hour === 0 || hour > 12) return impossible();
  return { hour: (hour % 12) + (half === 'pm' ? 12 : 0), minute, ambiguous12h: false };
}

/**
 * A time of day as people type it. Never throws.
 * @example readClock('a quarter past two') // { hour: 2, minute: 15, ambiguous12h: true }
 */
export function readClock(text: string): ClockRead | ClockProblem {
  const tokens = tokenize(text);
  const first = (read: (at: number) => Raw | ClockRead | undefined) => {
    for (let i = 0; i < tokens.length; i++) {
      const found = read(i);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  // Bare digits last: in '130 F at 2:35' only one of the two is a time.
  const found =
    first((i) => named(tokens, i) ?? relative(tokens, i) ?? withColon(tokens, i) ?? spoken(tokens, i)) ??
    first((i) => bareDigits(tokens, i));
  if (found === undefined) return { problem: `I need a time of day: ${example}.` };
  return 'next' in found ? settle(found, halfOfDay(tokens, found.next, false)) : found;
}
