import type { Book } from '../rulebook/book.ts';
import { adviceKey, hazardKey } from '../rulebook/rule-keys.ts';
import type { Signal } from '../rulebook/signals.ts';
import type { Effect, Turn, TurnKind } from './effects.ts';
import type { State } from './state.ts';
import { fill } from './wording.ts';

/** A step in the making: the state so far and what the outside will be asked to do. */
export interface Draft {
  readonly book: Book;
  readonly at: string;
  state: State;
  effects: Effect[];
}

export function change(draft: Draft, part: Partial<State>): void {
  draft.state = { ...draft.state, ...part };
}

interface Saying {
  signal?: Signal | undefined;
  id?: string;
  because?: string;
  asked?: string;
}

/** While earlier answers are given again only what asks or ends the batch is worth saying twice. */
const saidWhileChanging: TurnKind[] = ['asks-back', 'end'];

/** Whether it was said before an earlier answer was changed; advice that only the change brings up is new. */
function isSaidBefore({ changing }: State, kind: TurnKind, id: string | undefined): boolean {
  if (!changing || saidWhileChanging.includes(kind)) return false;
  // A stop that spoke before and is cleared again is no news; one that then still holds is told at the end.
  if (kind === 'stop' || kind === 'cleared')
    return id !== undefined && changing.spoke.includes(hazardKey(id));
  return kind !== 'advice' || !id || changing.spoke.includes(id) || changing.spoke.includes(adviceKey(id));
}

/** Adds a finished turn; facts named in the words are put in. */
export function say(draft: Draft, kind: TurnKind, words: string, saying: Saying = {}): void {
  if (isSaidBefore(draft.state, kind, saying.id)) return;
  const turn: Turn = { kind, at: draft.at, text: fill(draft.book, draft.state, words) };
  if (saying.signal) turn.signal = saying.signal;
  if (saying.id) turn.id = saying.id;
  if (saying.because) turn.because = fill(draft.book, draft.state, saying.because);
  if (saying.asked) turn.asked = fill(draft.book, draft.state, saying.asked);
  draft.effects.push({ do: 'say', turn });
}

export function without<T>(record: Readonly<Record<string, T>>, keys: readonly string[]): Record<string, T> {
  return Object.fromEntries(Object.entries(record).filter(([key]) => !keys.includes(key)));
}
