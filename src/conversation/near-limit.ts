import { bothSystems } from '../quantity/show.ts';
import type { Book } from '../rulebook/book.ts';
import { type Figure, isFigure, type Trace } from '../rulebook/evaluation.ts';
import { nameOfFact } from '../rulebook/explain.ts';
import { limitFacts } from '../rulebook/limit-facts.ts';
import { factTable } from './facts.ts';
import type { State } from './state.ts';

function figureOf(book: Book, state: State, fact: string): Figure | undefined {
  const value = state.figures[fact] ?? factTable(state).values[fact] ?? limitFacts(book)[fact];
  return isFigure(value) ? value : undefined;
}

/** The question behind most of a figure's ±: the one measurement that would settle it. */
function settledBy(book: Book, state: State, fact: string): string | undefined {
  let at = fact;
  for (let depth = 0; depth < 10; depth += 1) {
    if (at in book.questions) return at;
    const next = state.figures[at]?.biggest;
    if (next === undefined) return undefined;
    at = next;
  }
  return undefined;
}

function sayNear(book: Book, state: State, trace: Trace): { key: string; says: string } | undefined {
  if (trace.met === undefined || typeof trace.was !== 'number') return undefined;
  if (typeof trace.value !== 'object' || Array.isArray(trace.value)) return undefined;
  const left = state.figures[trace.fact];
  const right = figureOf(book, state, trace.value.fact);
  if (!left || !right) return undefined;
  const spread = Math.hypot(left.plusMinus, right.plusMinus);
  if (spread === 0 || Math.abs(left.value - right.value) >= spread) return undefined;
  const measure = settledBy(book, state, left.plusMinus >= right.plusMinus ? trace.fact : trace.value.fact);
  const question = measure && book.questions[measure];
  const cure = question ? ` One more measurement would settle it: ${question.short ?? question.ask}` : '';
  const figure = bothSystems(left.value, left.unit, { plusMinus: left.plusMinus });
  const line = bothSystems(
    right.value,
    right.unit,
    right.plusMinus > 0 ? { plusMinus: right.plusMinus } : {},
  );
  const name = nameOfFact(book, trace.fact);
  return {
    key: `near:${trace.fact}:${trace.value.fact}`,
    says: `Close to the line: ${name}: ${figure}, and the line is ${line}.${cure}`,
  };
}

/** What a rule decided although the ± of a figure reaches over the threshold; once a batch for each figure and threshold. */
export function nearLimits(
  book: Book,
  state: State,
  traces: readonly Trace[],
): { key: string; says: string }[] {
  const found = traces.flatMap((trace) => sayNear(book, state, trace) ?? []);
  const keys = new Set(state.saidOnce);
  return found.filter(({ key }) => {
    if (keys.has(key)) return false;
    keys.add(key);
    return true;
  });
}
