import type { UnitId } from '../../quantity/units.ts';
import type { Answer } from '../events.ts';
import type { State } from '../state.ts';

export type GallonKind = 'US' | 'imperial';

/** What the talk knows of the maker's habits when it reads a line. */
export interface ReadContext {
  /** Which gallon is meant; unknown until it was said once. */
  gallon?: GallonKind;
  /** The unit typed last, by the unit that was asked for. */
  habits: Readonly<Partial<Record<UnitId, UnitId>>>;
  /** The time of day where the maker is, "14:35"; unknown where nobody tells it. */
  now?: string;
  /** A number without a unit is in the unit asked for, whatever else it could be. */
  bareAsAsked?: true;
}

export const noContext: ReadContext = { habits: {} };

const ofTheUS = new Set<UnitId>(['galUS', 'quart', 'pint', 'flozUS']);
const imperial = new Set<UnitId>(['galImp', 'quartImp', 'pintImp', 'flozImp']);

/** Which gallon an answer was given in; nothing when it says neither. */
export function gallonOf(answer: Answer): GallonKind | undefined {
  if (answer.kind !== 'quantity' || !answer.typed) return undefined;
  if (ofTheUS.has(answer.typed.unit)) return 'US';
  return imperial.has(answer.typed.unit) ? 'imperial' : undefined;
}

/** The habits shown by the answers of this batch; `told` is what was said in advance about the gallon. */
export function contextOf(state: State, told?: GallonKind, now?: string): ReadContext {
  const habits: Partial<Record<UnitId, UnitId>> = {};
  for (const { answer } of state.past) {
    if (answer.kind === 'quantity' && answer.typed) habits[answer.unit] = answer.typed.unit;
  }
  const last = state.past.findLast((given) => gallonOf(given.answer) !== undefined);
  const gallon = last ? gallonOf(last.answer) : told;
  return { habits, ...(gallon ? { gallon } : {}), ...(now ? { now } : {}) };
}
