import { beliefs, likelihoods } from '../../src/diagnosis/beliefs.ts';
import { gateFacts, openGates } from '../../src/diagnosis/gates.ts';
import { costOf, possibleChecks, rankChecks } from '../../src/diagnosis/next-check.ts';
import { findingOf, type Found, type Trouble } from '../../src/diagnosis/trouble.ts';
import type { Diagnosis } from '../../src/rulebook/diagnosis-schema.ts';
import { type Random, pickBy } from './random.ts';

/** A trouble drawn from the tables: what was complained of, where, and what it really is. */
export interface Drawn {
  complaint: string;
  stage: string;
  cause: string;
}

/** Picks the next check, or nothing when it would stop. */
export type Chooser = (
  diagnosis: Diagnosis,
  trouble: Trouble,
  now: Float64Array,
  open: ReadonlySet<string>,
) => string | undefined;

export interface Played {
  checks: number;
  cost: number;
  first: boolean;
  firstThree: boolean;
  /** The true cause stood first after so many checks: one entry for every number of checks from none on. */
  firstAfter: boolean[];
}

/** The most checks that anybody would make for one trouble. */
const mostChecks = 40;

/** A complaint and a stage at random, the cause by its odds there. */
export function draw(diagnosis: Diagnosis, random: Random): Drawn {
  const { complaints } = diagnosis;
  const complaint = complaints[Math.floor(random() * complaints.length)];
  if (!complaint) throw new Error('there are no complaints');
  const stages = complaint.stages.filter((stage) =>
    diagnosis.causes.some(({ id, odds }) => complaint.core.includes(id) && odds[stage] !== undefined),
  );
  const stage = stages[Math.floor(random() * stages.length)] ?? complaint.stages[0] ?? '';
  const now = beliefs(diagnosis, { complaint: complaint.id, stage, found: [], passed: [] });
  const cause = diagnosis.causes[pickBy(random, now)];
  return { complaint: complaint.id, stage, cause: cause?.id ?? '' };
}

/** What the check shows if the drawn cause is the true one, by the chances of the table. */
function answer(truth: Diagnosis, drawn: Drawn, trouble: Trouble, finding: string, random: Random): Found {
  const { choices, of } = likelihoods(truth, trouble, finding);
  const cause = truth.causes.findIndex(({ id }) => id === drawn.cause);
  return { finding, choice: choices[pickBy(random, of[cause] ?? new Float64Array())] ?? '' };
}

/** The chooser of the program: the most gain for the cost, while it is worth it. */
export const best: Chooser = (diagnosis, trouble, now, open) =>
  rankChecks(diagnosis, trouble, now, open).find(({ gain }) => gain > diagnosis.weighing['worth-asking'])?.finding;

/** The checklist of a handbook: every check that can be made, in the order in which it is written down. */
export const checklist: Chooser = (diagnosis, trouble, _now, open) =>
  possibleChecks(diagnosis, trouble, open)[0]?.id;

export function atRandom(random: Random): Chooser {
  return (diagnosis, trouble, _now, open) => {
    const all = possibleChecks(diagnosis, trouble, open);
    return all[Math.floor(random() * all.length)]?.id;
  };
}

/**
 * Plays a drawn trouble to its end.
 * @param believed  the tables that the program goes by
 * @param truth     the tables by which the answers come out; the same ones, unless it is tried how wrong they may be
 */
export function play(
  believed: Diagnosis,
  truth: Diagnosis,
  drawn: Drawn,
  choose: Chooser,
  random: Random,
): Played {
  let trouble: Trouble = { complaint: drawn.complaint, stage: drawn.stage, found: [], passed: [] };
  let cost = 0;
  const firstAfter: boolean[] = [];
  const rankOf = (now: Float64Array) => {
    const own = now[believed.causes.findIndex(({ id }) => id === drawn.cause)] ?? 0;
    return now.filter((one) => one > own).length;
  };
  for (;;) {
    const now = beliefs(believed, trouble);
    const rank = rankOf(now);
    firstAfter.push(rank === 0);
    const open = openGates(believed, gateFacts({}, trouble), []);
    const isOver = Math.max(...now) >= believed.weighing.settled || trouble.found.length >= mostChecks;
    const finding = isOver ? undefined : choose(believed, trouble, now, open);
    if (finding === undefined)
      return { checks: trouble.found.length, cost, first: rank === 0, firstThree: rank < 3, firstAfter };
    cost += costOf(believed, findingOf(believed, finding));
    trouble = { ...trouble, found: [...trouble.found, answer(truth, drawn, trouble, finding, random)] };
  }
}

export interface Summary {
  first: number;
  firstThree: number;
  checks: number;
  cost: number;
  /** Share of cases with the true cause first after this many checks. */
  firstAfter: number[];
}

const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;

/** A case that has ended keeps its last standing. */
export function summarise(played: readonly Played[]): Summary {
  const longest = Math.max(...played.map(({ firstAfter }) => firstAfter.length));
  return {
    first: mean(played.map(({ first }) => Number(first))),
    firstThree: mean(played.map(({ firstThree }) => Number(firstThree))),
    checks: mean(played.map(({ checks }) => checks)),
    cost: mean(played.map(({ cost }) => cost)),
    firstAfter: Array.from({ length: longest }, (_none, after) =>
      mean(played.map(({ firstAfter }) => Number(firstAfter[after] ?? firstAfter.at(-1)))),
    ),
  };
}
