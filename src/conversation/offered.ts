import { change, type Draft } from './draft.ts';

/** Forgets what was said ahead of these questions: it was said before something changed. */
export function dropOffered(draft: Draft, questions: readonly string[]): void {
  const offered = draft.state.offered.filter((one) => !questions.includes(one.question));
  if (offered.length < draft.state.offered.length) change(draft, { offered });
}

/**
 * Has an answer taken that was given ahead of this question and confirmed then. Not while a stop holds or an
 * alarm is open: what clears those is answered for itself.
 */
export function giveOffered(draft: Draft, question: string): void {
  const { offered, held, alarm, challenged } = draft.state;
  const found = offered.find((one) => one.question === question);
  if (!found) return;
  dropOffered(draft, [question]);
  if (held.length === 0 && !alarm && !challenged[question]) draft.effects.push({ do: 'give', ...found });
}

/** Takes over what a confirmed line said to later questions; what was said ahead of this one is used up. */
export function takeAlso(draft: Draft, question: string, text: string): void {
  const { doubt } = draft.state;
  dropOffered(draft, [question]);
  const also = doubt && doubt.question === question && doubt.text === text ? (doubt.also ?? []) : [];
  if (also.length === 0) return;
  change(draft, { offered: [...draft.state.offered, ...also.map((one) => ({ ...one, text }))] });
}
