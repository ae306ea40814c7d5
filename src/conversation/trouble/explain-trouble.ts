import type { Diagnosis } from '../../rulebook/diagnosis-schema.ts';
import { findingAsked } from '../../rulebook/trouble-questions.ts';
import type { State } from '../state.ts';
import { causeName, percent } from './in-words.ts';
import { evidenceLines } from './tell-verdict.ts';

/** Causes named when somebody asks what is thought so far. */
const mostNamed = 4;

/** Why a check is asked for: which causes it tells apart, and what it is worth for its cost. */
export function whyChecked(diagnosis: Diagnosis, state: State): string {
  const finding = state.asking === undefined ? undefined : findingAsked(state.asking);
  const { outcome } = state.trouble ?? {};
  const check = diagnosis.findings.find(({ id }) => id === finding);
  if (!check || !outcome)
    return 'It is needed to find out what went wrong, and to bring nobody into danger on the way.';
  const touched = outcome.causes.filter(({ id }) =>
    diagnosis.causes.some((cause) => cause.id === id && cause.likely[check.id] !== undefined),
  );
  const names = touched
    .slice(0, 3)
    .map(({ id, probability }) => `${causeName(diagnosis, id)} (${percent(probability)} now)`);
  const money = check.money > 0 ? ` and ${check.money}\u00a0dollars` : '';
  const opening =
    names.length > 0 ? `Its answer speaks for or against ${names.join(', ')}.` : 'It sharpens the picture.';
  const chosen =
    outcome.next?.finding === check.id
      ? ' Of all checks that can be made now it tells most for its cost.'
      : '';
  return `${opening}${chosen} It takes about ${check.minutes}\u00a0min${money}.`;
}

/** What is thought so far and why: the first causes and how each answer speaks for the best of them. */
export function thoughtSoFar(diagnosis: Diagnosis, state: State): string {
  const { outcome } = state.trouble ?? {};
  const [first] = outcome?.causes ?? [];
  if (!outcome || !first) return 'I have weighed nothing yet; tell me first what is not right.';
  const causes = outcome.causes
    .slice(0, mostNamed)
    .map(({ id, probability }) => `${percent(probability)} ${causeName(diagnosis, id)}`);
  const evidence = evidenceLines(diagnosis, outcome, first.id);
  const because =
    evidence.length > 0 ? [`For or against ${causeName(diagnosis, first.id)}:`, ...evidence] : [];
  return ['So far:', ...causes.map((line) => `- ${line}`), ...because].join('\n');
}
