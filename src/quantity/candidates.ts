import { readAmount } from './amount.ts';
import { type Mention, readMention, type UnitFinder } from './mention.ts';
import { readAndShare } from './number-words.ts';
import { type Gallon, readUnit, type TypedUnit, wholeWordUnit } from './read-unit.ts';
import { type Token, tokenize } from './tokens.ts';
import { convert, type Dimension, dimensionOf, sameDimension, type UnitId } from './units.ts';

export type Candidate = Mention<TypedUnit>;

const canBeMadeUp = new Set<Dimension>(['time', 'mass', 'length', 'volume']);

interface Reader {
  tokens: readonly Token[];
  wanted: Dimension;
  gallon: Gallon;
}

function mentionAt(reader: Reader, at: number): Candidate | undefined {
  const { tokens, wanted, gallon } = reader;
  const find: UnitFinder<TypedUnit> = (list, from, amount) => readUnit(list, from, amount, wanted, gallon);
  return readMention(tokens, at, find) ?? oneUnit(reader, at);
}

/** 'a cup', 'an hour', and 'hour and a half' where the article was dropped. */
function oneUnit(reader: Reader, at: number): Candidate | undefined {
  const { tokens, wanted, gallon } = reader;
  const article = /^(a|an)$/.test(tokens[at]?.text ?? '') ? 1 : 0;
  const unit = wholeWordUnit(tokens, at + article, wanted, gallon);
  if (unit === undefined || (article === 0 && readAndShare(tokens, unit.next) === undefined))
    return undefined;
  const amount = { readings: [1], from: at, next: at + article, share: true, approx: false };
  return { readings: [1], amount, approx: false, denied: false, unit, from: at, next: unit.next };
}

/** 'an hour and a half', '2 litres and a quarter'. */
function addShare(reader: Reader, found: Candidate): void {
  const share = readAndShare(reader.tokens, found.next);
  if (share === undefined || found.readings.length !== 1 || found.plusMinus !== undefined) return;
  if (readUnitHere(reader, share.next)?.unit !== undefined) return;
  found.readings = found.readings.map((value) => value + share.value);
  found.next = share.next;
}

function readUnitHere(reader: Reader, at: number): TypedUnit | undefined {
  const plain = { readings: [1], from: at, next: at, share: true, approx: false };
  return readUnit(reader.tokens, at, plain, reader.wanted, reader.gallon);
}

interface Smaller {
  value: number;
  unit: TypedUnit;
  id: UnitId;
  next: number;
}

function smallerPart(reader: Reader, found: Candidate, larger: UnitId): Smaller | undefined {
  const dot = reader.tokens[found.next]?.text === '.' ? 1 : 0;
  const joined = found.next + (/^(and|,)$/.test(reader.tokens[found.next]?.text ?? '') ? 1 : dot);
  const amount = readAmount(reader.tokens, joined);
  const [value] = amount?.readings ?? [];
  if (amount === undefined || value === undefined || amount.readings.length !== 1 || value < 0)
    return undefined;
  const unit = readUnit(reader.tokens, amount.next, amount, reader.wanted, reader.gallon);
  if (unit?.unit !== undefined && sameDimension(unit.unit, larger))
    return { value, unit, id: unit.unit, next: unit.next };
  const id = unit === undefined && joined === found.next + dot ? unsaidUnit(larger, value) : undefined;
  return id === undefined
    ? undefined
    : { value, unit: { key: id, unit: id, next: amount.next }, id, next: amount.next };
}

/** '1 h 20', '5 ft 6', '2 lb 3', '3 kilos 200': the smaller unit goes without saying. */
function unsaidUnit(larger: UnitId, value: number): UnitId | undefined {
  if (!Number.isInteger(value)) return undefined;
  if (larger === 'h' && value < 60) return 'min';
  if (larger === 'ft' && value < 12) return 'in';
  if (larger === 'lb' && value < 16) return 'oz';
  return larger === 'kg' && value >= 100 && value < 1000 ? 'g' : undefined;
}

/** '1 h 20 min', '2 lb 3 oz', '1 gal and 2 qt': one quantity, kept in the smaller unit. */
function addSmallerParts(reader: Reader, found: Candidate): void {
  for (let parts = 0; parts < 3; parts++) {
    const larger = found.unit?.unit;
    const [value] = found.readings;
    if (larger === undefined || value === undefined || found.readings.length !== 1) return;
    if (found.plusMinus !== undefined || !Number.isInteger(value) || !canBeMadeUp.has(dimensionOf(larger)))
      return;
    const part = smallerPart(reader, found, larger);
    if (part === undefined || convert(part.value, part.id, larger) >= 1 || convert(1, part.id, larger) >= 1)
      return;
    found.readings = [convert(value, larger, part.id) + part.value];
    found.unit = part.unit;
    found.next = part.next;
  }
}

/** '1:30 h' is an hour and a half; '1:30' alone may be minutes and seconds. */
function clockAt(reader: Reader, at: number): Candidate | undefined {
  const token = reader.tokens[at];
  if (reader.wanted !== 'time' || token?.kind !== 'clock') return undefined;
  const [first = 0, next = 0, third] = token.text.split(':').map(Number);
  const unit = readUnitHere(reader, at + 1);
  const minutesAndSeconds = first + next / 60;
  const hoursAndMinutes = first * 60 + next + (third ?? 0) / 60;
  const known = unit?.unit === 'min' || unit?.unit === 'h' || third !== undefined;
  const sure = unit?.unit === 'min' && third === undefined ? minutesAndSeconds : hoursAndMinutes;
  const readings =
    next > 59 || (third ?? 0) > 59 ? [] : known ? [sure] : [hoursAndMinutes, minutesAndSeconds];
  const past = known && unit?.unit !== undefined ? unit.next : at + 1;
  const amount = { readings, from: at, next: at + 1, share: false, approx: false };
  return {
    readings,
    amount,
    approx: false,
    denied: false,
    unit: { key: 'min', unit: 'min', next: past },
    from: at,
    next: past,
  };
}

/** 'pH 7': the unit stands first. */
function takePh(tokens: readonly Token[], found: Candidate): void {
  const linked = /^(of|is|=|:|about|around)$/.test(tokens[found.from - 1]?.text ?? '')
    ? found.from - 2
    : found.from - 1;
  if (tokens[linked]?.text !== 'ph' || (found.unit !== undefined && found.unit.unknown === undefined)) return;
  found.unit = { key: 'pH', unit: 'pH', next: found.next };
  found.from = linked;
}

/** A bare 'and a half' belongs to something before it that was not understood. */
function isTail(tokens: readonly Token[], found: Candidate): boolean {
  return found.amount.share && found.unit === undefined && tokens[found.from - 1]?.text === 'and';
}

/** Every number in the line that could be an answer of this dimension, in order. */
export function findCandidates(
  text: string,
  wanted: Dimension,
  gallon: Gallon,
): { tokens: Token[]; found: Candidate[] } {
  const tokens = tokenize(text);
  const reader = { tokens, wanted, gallon };
  const found: Candidate[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const mention = clockAt(reader, i) ?? mentionAt(reader, i);
    if (mention === undefined) continue;
    if (tokens[i]?.kind !== 'clock') {
      addShare(reader, mention);
      addSmallerParts(reader, mention);
      takePh(tokens, mention);
    }
    if (!mention.denied && mention.readings.length > 0 && !isTail(tokens, mention)) found.push(mention);
    i = Math.max(i, mention.next - 1);
  }
  return { tokens, found };
}
