import type { Diagnosis } from '../rulebook/diagnosis-schema.ts';
import type { KnownFacts } from '../rulebook/three-valued.ts';
import { beliefs, likelihoods, type Ranked, ranked } from './beliefs.ts';
import { gateFacts, openGates } from './gates.ts';
import { type Check, costOf, possibleChecks, rankChecks } from './next-check.ts';
import type { Trouble } from './trouble.ts';

/** What is thought of a trouble at one moment, and what to look at next. */
export interface Verdict {
  /** All causes, the most probable first. */
  causes: Ranked[];
  /** The check that tells most for its cost; none when the cause is found or nothing is worth the asking. */
  next: Check | undefined;
  /** The first cause is believed well enough to act on. */
  settled: boolean;
  /** Two causes at once are likely: the first two are both to be treated. */
  two: boolean;
  /** The check that best tells the first two causes apart, where one is left. */
  apart: string | undefined;
}

/** How far two causes differ in what they make of a check: the symmetric Kullback-Leibler divergence, nat. */
export function difference(
  diagnosis: Diagnosis,
  trouble: Trouble,
  finding: string,
  causes: [string, string],
): number {
  const { choices, of } = likelihoods(diagnosis, trouble, finding);
  const [one, other] = causes.map((cause) => of[diagnosis.causes.findIndex(({ id }) => id === cause)]);
  return choices.reduce((sum, _choice, place) => {
    const p = one?.[place] ?? 0;
    const q = other?.[place] ?? 0;
    return sum + (p - q) * Math.log(p / q);
  }, 0);
}

function tellApart(
  diagnosis: Diagnosis,
  trouble: Trouble,
  open: ReadonlySet<string>,
  [first, second]: readonly Ranked[],
): string | undefined {
  if (!first || !second) return undefined;
  const { 'worth-asking': worth } = diagnosis.weighing;
  const [best] = possibleChecks(diagnosis, trouble, open)
    .map((finding) => ({
      id: finding.id,
      tells: difference(diagnosis, trouble, finding.id, [first.id, second.id]),
      cost: costOf(diagnosis, finding),
    }))
    .filter(({ tells }) => tells > worth)
    .sort((one, other) => other.tells / other.cost - one.tells / one.cost);
  return best?.id;
}

/**
 * Weighs a trouble and picks the next check.
 * @param known   facts of the batch, for the gates of checks
 * @param denied  gates that the maker said do not apply
 */
export function weigh(
  diagnosis: Diagnosis,
  trouble: Trouble,
  known: KnownFacts,
  denied: readonly string[],
): Verdict {
  const { settled: enough, 'worth-asking': worth, 'two-causes': pair } = diagnosis.weighing;
  const now = beliefs(diagnosis, trouble);
  const causes = ranked(diagnosis, now);
  const best = causes[0]?.probability ?? 0;
  const open = openGates(diagnosis, gateFacts(known, trouble), denied);
  const settled = best >= enough;
  const next = settled
    ? undefined
    : rankChecks(diagnosis, trouble, now, open).find(({ gain }) => gain > worth);
  const two = best < pair.under && trouble.found.length >= pair.after;
  return { causes, next, settled, two, apart: tellApart(diagnosis, trouble, open, causes) };
}
