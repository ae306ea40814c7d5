import type { Token } from './tokens.ts';
import { unitTable } from './unit-table.ts';
import { isUnitId, type UnitId, unitOf } from './units.ts';

export type Gallon = 'US' | 'imperial';

// Words that name a US and an imperial unit.
const twoSystems: Record<string, Record<Gallon, UnitId>> = {};
for (const word of ['gal', 'gals', 'gallon', 'gallons', 'galon', 'galons', 'gall', 'galls', 'gl', 'gls'])
  twoSystems[word] = { US: 'galUS', imperial: 'galImp' };
for (const word of ['pint', 'pints', 'pt', 'pts']) twoSystems[word] = { US: 'pint', imperial: 'pintImp' };
for (const word of ['quart', 'quarts', 'qt', 'qts']) twoSystems[word] = { US: 'quart', imperial: 'quartImp' };
for (const word of [
  'fl oz',
  'floz',
  'fl ozs',
  'fluid ounce',
  'fluid ounces',
  'fluid oz',
  'fl ounce',
  'fl ounces',
]) {
  twoSystems[word] = { US: 'flozUS', imperial: 'flozImp' };
}

const unitsByWord = new Map<string, UnitId[]>();
const longest = 6;

function learn(word: string, id: UnitId): void {
  const known = unitsByWord.get(word) ?? [];
  if (!known.includes(id)) unitsByWord.set(word, [...known, id]);
}
for (const id of Object.keys(unitTable) as UnitId[]) {
  for (const typed of [id, ...unitOf(id).typed]) {
    if (id === '1' || id === 'money') continue;
    const word = typed.toLowerCase();
    learn(word, id);
    if (/[a-z]{3}$/.test(word) && !word.endsWith('s')) learn(`${word}s`, id);
  }
}

/** Two known units with a slash between: the house unit they make. */
export const composed = new Map<string, UnitId>();
for (const id of Object.keys(unitTable) as UnitId[]) {
  for (const typed of [id, ...unitOf(id).typed]) {
    const [top = '', bottom = '', more] = typed.split('/');
    if (more === undefined && isUnitId(top) && isUnitId(bottom)) composed.set(typed, id);
  }
}

export interface Atom {
  ids: UnitId[];
  next: number;
  gallonAssumed?: Gallon;
}

function textOf(token: Token, next: Token | undefined): string {
  if (token.text === 'per') return '/';
  const glued = token.kind === 'mark' || next === undefined || next.kind === 'mark' || next.text === 'per';
  return glued ? token.text : `${token.text} `;
}

const systemWords: Record<string, Gallon> = {
  us: 'US',
  usa: 'US',
  american: 'US',
  imperial: 'imperial',
  imp: 'imperial',
  uk: 'imperial',
  british: 'imperial',
};

/** '40 gal US', '40 gallons (imperial)': the system may stand behind. */
function ofEitherSystem(
  tokens: readonly Token[],
  next: number,
  either: Record<Gallon, UnitId>,
  gallon: Gallon,
): Atom {
  const open = tokens[next]?.text === '(' ? 1 : 0;
  const word = tokens[next + open]?.text ?? '';
  const said = Object.hasOwn(systemWords, word) ? systemWords[word] : undefined;
  if (said !== undefined) return { ids: [either[said]], next: next + 1 + 2 * open };
  return { ids: [either[gallon]], next, gallonAssumed: gallon };
}

/** The longest run of tokens from `at` that names a unit. */
export function atomAt(tokens: readonly Token[], at: number, gallon: Gallon): Atom | undefined {
  for (let count = Math.min(longest, tokens.length - at); count > 0; count--) {
    const run = tokens.slice(at, at + count);
    if (run.at(-1)?.text === '.') continue;
    const named = run.filter((token) => token.text !== '.');
    const word = named.map((token, k) => textOf(token, named[k + 1])).join('');
    const either = Object.hasOwn(twoSystems, word) ? twoSystems[word] : undefined;
    if (either !== undefined) return ofEitherSystem(tokens, at + count, either, gallon);
    const ids = unitsByWord.get(word);
    if (ids !== undefined) return { ids, next: at + count };
  }
  return undefined;
}
