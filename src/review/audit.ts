import type { Effect } from '../conversation/effects.ts';
import type { TroubleOutcome } from '../conversation/events.ts';
import { emptyState } from '../conversation/state.ts';
import { makeStep } from '../conversation/step.ts';
import type { TroubleCase } from '../conversation/trouble/trouble-case.ts';
import type { Book } from '../rulebook/book.ts';
import type { Evaluation, Figure, Occasion } from '../rulebook/evaluation.ts';
import { hazardKey } from '../rulebook/rule-keys.ts';
import type { Numbered, Place } from './story.ts';

export type DifferenceKind = 'advice' | 'stop' | 'figure' | 'way' | 'question' | 'clearing' | 'trouble';

/** Something that the rules of today would say otherwise than the log says it was. */
export interface Difference extends Place {
  stage: string;
  kind: DifferenceKind;
  id: string;
  was: string;
  now: string;
  why: string;
  /** How often the log shows the same difference; it is told where it shows first. */
  times: number;
}

export interface Today {
  book: Book;
  evaluate: (occasion: Occasion) => Promise<Evaluation>;
  weigh: (trouble: TroubleCase, occasion: Occasion) => TroubleOutcome;
  /** A figure with its unit and ±, and how a rule or figure of today comes about, in words. */
  show: (figure: Figure) => string;
  explain: (kind: DifferenceKind, id: string, outcome: Evaluation, occasion: Occasion) => string;
}

const kindOf: Record<string, DifferenceKind> = {
  advice: 'advice',
  ask: 'question',
  leave: 'way',
  way: 'way',
  clear: 'clearing',
  stay: 'advice',
};

interface Raw {
  kind: DifferenceKind;
  id: string;
  was: string;
  now: string;
}

/** Numbers are compared as far as a log can hold them. */
const sameNumber = (one: number, other: number) => Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one));

function conditionDifferences(then: Evaluation, now: Evaluation): Raw[] {
  const keys = new Set([...then.true, ...now.true]);
  return [...keys].flatMap((key) => {
    const [was, is] = [then.true.includes(key), now.true.includes(key)];
    const [prefix = ''] = key.split(':');
    const kind = kindOf[prefix];
    if (was === is || !kind) return [];
    const words = (held: boolean) => (held ? 'held' : 'did not hold');
    return [{ kind, id: key.slice(prefix.length + 1), was: words(was), now: is ? 'holds' : 'does not hold' }];
  });
}

function stopDifferences(then: Evaluation, now: Evaluation): Raw[] {
  const all = new Set([...then.unsafe, ...now.unsafe]);
  return [...all].flatMap((id) => {
    const [was, is] = [then.unsafe.includes(id), now.unsafe.includes(id)];
    return was === is
      ? []
      : [{ kind: 'stop', id, was: was ? 'stopped' : 'did not stop', now: is ? 'stops' : 'does not stop' }];
  });
}

function figureDifferences(
  then: Readonly<Record<string, Figure>>,
  now: Readonly<Record<string, Figure>>,
  show: Today['show'],
): Raw[] {
  const facts = new Set([...Object.keys(then), ...Object.keys(now)]);
  return [...facts].flatMap((id) => {
    const [was, is] = [then[id], now[id]];
    const same =
      was &&
      is &&
      was.unit === is.unit &&
      sameNumber(was.value, is.value) &&
      sameNumber(was.plusMinus, is.plusMinus);
    if (same) return [];
    return [
      { kind: 'figure', id, was: was ? show(was) : 'not worked out', now: is ? show(is) : 'not worked out' },
    ];
  });
}

function troubleDifferences(then: TroubleOutcome, now: TroubleOutcome): Raw[] {
  const differences: Raw[] = [];
  const [first] = then.causes;
  const [firstNow] = now.causes;
  if (first?.id !== firstNow?.id)
    differences.push({ kind: 'trouble', id: 'cause', was: first?.id ?? 'none', now: firstNow?.id ?? 'none' });
  if (then.next?.finding !== now.next?.finding)
    differences.push({
      kind: 'trouble',
      id: 'next-check',
      was: then.next?.finding ?? 'none',
      now: now.next?.finding ?? 'none',
    });
  return differences;
}

/** The figures after an evaluation: those before it with the new and changed ones, without the lost ones. */
function figuresAfter(before: Occasion['figures'], { figures, lost }: Evaluation): Record<string, Figure> {
  const after = { ...before, ...figures };
  for (const fact of lost) delete after[fact];
  return after;
}

type Pending = Extract<Effect, { do: 'evaluate' | 'weigh' | 'consider' }>;

/**
 * Folds a log as it was and runs the rules of today at every place where rules were run then.
 * What was said then stays the state of the batch, so one changed rule shows where it alone would differ.
 */
export async function audit(today: Today, log: readonly Numbered[]): Promise<Difference[]> {
  const step = makeStep(today.book);
  const found = new Map<string, Difference>();
  let state = emptyState;
  let pending: Pending | undefined;
  for (const { seq, event } of log) {
    const place = { record: seq, at: event.at };
    const note = (raw: Raw, why: string) => {
      const key = JSON.stringify([state.stage, raw.kind, raw.id, raw.now]);
      const before = found.get(key);
      if (before) before.times += 1;
      else found.set(key, { ...place, ...raw, why, stage: state.stage, times: 1 });
    };
    if (event.type === 'RulesEvaluated' && pending?.do === 'evaluate') {
      const { occasion } = pending;
      const now = await today.evaluate(occasion);
      const then = event.outcome as Evaluation;
      const raws = [
        ...stopDifferences(then, now),
        ...conditionDifferences(then, now),
        ...figureDifferences(
          figuresAfter(occasion.figures, then),
          figuresAfter(occasion.figures, now),
          today.show,
        ),
      ];
      for (const raw of raws) note(raw, today.explain(raw.kind, raw.id, now, occasion));
    } else if (event.type === 'TroubleWeighed' && pending?.do === 'weigh') {
      const now = today.weigh(pending.trouble, pending.occasion);
      for (const raw of troubleDifferences(event.outcome, now))
        note(raw, 'The causes, checks or likelihoods were changed.');
    }
    const next = step(state, event);
    pending =
      next.effects.findLast(
        (effect): effect is Pending => effect.do === 'evaluate' || effect.do === 'weigh',
      ) ?? pending;
    state = next.state;
  }
  return [...found.values()];
}

/** The stop that a difference is about, in the rules of today, if it is there. */
export function isKnownToday(book: Book, { kind, id }: Pick<Difference, 'kind' | 'id'>): boolean {
  if (kind === 'stop') return book.hazards.some((hazard) => hazardKey(hazard.id) === hazardKey(id));
  if (kind === 'advice') return book.stages.some(({ advice }) => advice.some((one) => one.id === id));
  if (kind === 'question') return id in book.questions;
  return true;
}
