import { type Amount, readAmount } from './amount.ts';
import type { UnitHit } from './mention.ts';
import type { Token } from './tokens.ts';
import { type Atom, atomAt, composed, type Gallon } from './unit-words.ts';
import { type Dimension, dimensionOf, type UnitId } from './units.ts';
import { whyNotAMeasure } from './vague-measures.ts';

export type { Gallon } from './unit-words.ts';

/** What stands where a unit would. `key` is the unit id, or why there is none. */
export interface TypedUnit extends UnitHit {
  unit?: UnitId;
  gallonAssumed?: Gallon;
  /** 'degrees' without saying which. */
  bareDegrees?: boolean;
  /** A sentence: this cannot be a measure. */
  refused?: string;
  /** A word where a unit would be, that is not one we know. */
  unknown?: string;
}

const perWords = new Set(['/', 'per', 'a', 'an', 'each']);

/** 'grams per litre', 'gal a minute': a made-up pair such as 'g per cup' comes back as unknown. */
function compositeAt(tokens: readonly Token[], top: Atom, gallon: Gallon): TypedUnit | undefined {
  if (!perWords.has(tokens[top.next]?.text ?? '')) return undefined;
  const bottom = atomAt(tokens, top.next + 1, gallon);
  if (bottom === undefined) return undefined;
  const names = top.ids.flatMap((a) => bottom.ids.map((b) => `${a}/${b}`));
  const id = names.map((name) => composed.get(name)).find((found) => found !== undefined);
  const gallonAssumed = top.gallonAssumed ?? bottom.gallonAssumed;
  const shared = { next: bottom.next, ...(gallonAssumed === undefined ? {} : { gallonAssumed }) };
  if (id !== undefined) return { key: id, unit: id, ...shared };
  return { key: 'unknown', unknown: names[0] ?? '', next: bottom.next };
}

const degreeWords = new Set(['°', 'degree', 'degrees', 'deg', 'degs']);
const determiners = new Set('the a an my our this that total all here there between'.split(' '));

// Words that may stand behind a number without being a unit.
const followers = new Set(
  `and but so then now with at on in after before from for is was were it its it's the this that these
  i i'm we you as by when while if because still already again just only maybe or to of exactly please thanks there here today
  left total altogether steady holding rising falling dropping climbing since until till until than too also not no yes sure
  oil fuel methanol water titrant inside outside warm hot cold high low up down x times plus minus ish give more point`.split(
    /\s+/,
  ),
);

function pastArticle(tokens: readonly Token[], at: number): number {
  const of = tokens[at]?.text === 'of' ? at + 1 : at;
  return /^(a|an)$/.test(tokens[of]?.text ?? '') ? of + 1 : of;
}

function isInTheTank(tokens: readonly Token[], atom: Atom): boolean {
  return (
    atom.ids[0] === 'in' &&
    tokens[atom.next - 1]?.text === 'in' &&
    determiners.has(tokens[atom.next]?.text ?? '')
  );
}

function pick(atom: Atom, wanted: Dimension): UnitId {
  return atom.ids.find((id) => dimensionOf(id) === wanted) ?? atom.ids[0] ?? '1';
}

function unitAt(
  tokens: readonly Token[],
  at: number,
  wanted: Dimension,
  gallon: Gallon,
): TypedUnit | undefined {
  // Quote marks are feet and inches only where a length is asked for.
  if (wanted !== 'length' && /^['"′″]$/.test(tokens[at]?.text ?? '')) return undefined;
  const atom = atomAt(tokens, at, gallon);
  if (atom === undefined || isInTheTank(tokens, atom)) return undefined;
  const composite = compositeAt(tokens, atom, gallon);
  if (composite !== undefined) return composite;
  const unit = pick(atom, wanted);
  if (unit === 'oz' && wanted === 'volume') {
    const refused = "An ounce of weight or of volume? Type 'fl oz' for volume, or give millilitres.";
    return { key: 'refused', refused, next: atom.next };
  }
  const { gallonAssumed, next } = atom;
  return { key: unit, unit, next, ...(gallonAssumed === undefined ? {} : { gallonAssumed }) };
}

function notAUnit(
  tokens: readonly Token[],
  at: number,
  wanted: Dimension,
  share: boolean,
): TypedUnit | undefined {
  const token = tokens[at];
  if (token === undefined) return undefined;
  if (degreeWords.has(token.text)) return { key: 'degrees', bareDegrees: true, next: at + 1 };
  const refused = whyNotAMeasure(token.text, wanted);
  if (refused !== undefined) return { key: 'refused', refused, next: at + 1 };
  if (wanted === 'count' || wanted === 'money') return undefined;
  // 'a half to three quarters of a cup' goes on; 'a quarter to three' does not.
  if (share && /^(to|or)$/.test(token.text) && readAmount(tokens, at + 1)?.share) return undefined;
  const word = token.kind === 'word';
  const strange =
    word && (!token.spaceBefore || !followers.has(token.text) || (share && token.text !== 'and'));
  return strange || token.text === '/' ? { key: 'unknown', unknown: token.text, next: at + 1 } : undefined;
}

/** What stands behind a number where its unit would be; undefined when nothing does. */
export function readUnit(
  tokens: readonly Token[],
  at: number,
  amount: Amount,
  wanted: Dimension,
  gallon: Gallon,
): TypedUnit | undefined {
  const tied = tokens[at]?.text === '-' && !tokens[at]?.spaceBefore && tokens[at + 1]?.kind === 'word';
  const direct = tied ? at + 1 : at;
  const places = amount.share ? [direct, pastArticle(tokens, direct)] : [direct];
  for (const place of places) {
    const found = unitAt(tokens, place, wanted, gallon);
    if (found !== undefined) return found;
  }
  // '130 (F)'
  const inside = tokens[direct]?.text === '(' ? unitAt(tokens, direct + 1, wanted, gallon) : undefined;
  if (inside !== undefined && tokens[inside.next]?.text === ')') return { ...inside, next: inside.next + 1 };
  return notAUnit(tokens, places.at(-1) ?? direct, wanted, amount.share);
}

/** 'cup', 'hour': a whole word for a unit of this dimension, not a letter that may be anything. */
export function wholeWordUnit(
  tokens: readonly Token[],
  at: number,
  wanted: Dimension,
  gallon: Gallon,
): TypedUnit | undefined {
  if ((tokens[at]?.text.length ?? 0) < 3) return undefined;
  const found = unitAt(tokens, at, wanted, gallon);
  return found?.unit !== undefined && dimensionOf(found.unit) === wanted ? found : undefined;
}
