import type { Book } from '../rulebook/book.ts';
import { adviceKey } from '../rulebook/rule-keys.ts';
import type { Advice } from '../rulebook/rule-schema.ts';
import type { Signal } from '../rulebook/signals.ts';
import type { Given, State } from './state.ts';

type Warning = Advice & { signal: Signal };

function isWarning(advice: Advice): advice is Warning {
  return advice.signal === 'DANGER' || advice.signal === 'WARNING';
}

function warningsIn(book: Book, keys: readonly string[]): Warning[] {
  const all = book.stages.flatMap((stage) => stage.advice);
  return keys.flatMap((key) => all.filter((advice) => adviceKey(advice.id) === key).filter(isWarning));
}

/** The worst that was told on the strength of the last answer. */
export function warnedSince(book: Book, state: State, { before }: Given): Warning | undefined {
  const fresh = Object.keys(state.traces).filter((key) => state.traces[key] !== before.traces[key]);
  const warnings = warningsIn(book, fresh);
  return warnings.find(({ signal }) => signal === 'DANGER') ?? warnings[0];
}

/** Whether a danger was told because of the answer to a question itself, not of a figure that it goes into. */
export function warnsOf(book: Book, state: State, question: string): boolean {
  return warningsIn(book, Object.keys(state.traces)).some((advice) =>
    (state.traces[adviceKey(advice.id)] ?? []).some((trace) => trace.met === true && trace.fact === question),
  );
}
