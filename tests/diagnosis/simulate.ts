import { beliefs, likelihoods } from '../../src/diagnosis/beliefs.ts';
import { gateFacts, openGates } from '../../src/diagnosis/gates.ts';
import { costOf, possibleChecks, rankChecks } from '../../src/diagnosis/next-check.ts';
import { type Found, findingOf, type Trouble } from '../../src/diagnosis/trouble.ts';
import {
  type Cause,
  type Diagnosis,
  type LikelihoodWord,
  likelihoodWords,
} from '../../src/rulebook/diagnosis-schema.ts';
import { pickBy, type Random, seeded } from '../random.ts';

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
  rankChecks(diagnosis, trouble, now, open).find(({ gain }) => gain > diagnosis.weighing['worth-asking'])
    ?.finding;

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
  /** Share of cases with the true cause first, when nobody makes more than this many checks. */
  firstAfter: number[];
  /** The checks made then, on average. */
  checksAfter: number[];
}

const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;

/** A case that has ended keeps its last standing. */
function summarise(played: readonly Played[]): Summary {
  const longest = Math.max(...played.map(({ firstAfter }) => firstAfter.length));
  const limits = Array.from({ length: longest }, (_none, limit) => limit);
  return {
    first: mean(played.map(({ first }) => Number(first))),
    firstThree: mean(played.map(({ firstThree }) => Number(firstThree))),
    checks: mean(played.map(({ checks }) => checks)),
    cost: mean(played.map(({ cost }) => cost)),
    firstAfter: limits.map((limit) =>
      mean(played.map(({ firstAfter }) => Number(firstAfter[limit] ?? firstAfter.at(-1)))),
    ),
    checksAfter: limits.map((limit) => mean(played.map(({ checks }) => Math.min(checks, limit)))),
  };
}

/** Plays the same drawn cases with one way to choose. */
export function simulate(
  believed: Diagnosis,
  truth: Diagnosis,
  choose: Chooser,
  cases: number,
  seed: number,
): Summary {
  const random = seeded(seed);
  return summarise(
    Array.from({ length: cases }, () => play(believed, truth, draw(truth, random), choose, random)),
  );
}

/** How many checks a way to choose makes on average until the true cause stands first as often as wanted. */
export function checksUntil({ firstAfter, checksAfter, checks }: Summary, wanted: number): number {
  const limit = firstAfter.findIndex((share) => share >= wanted);
  return checksAfter[limit] ?? checks;
}

/** The tables with every word moved one up or down at random: what somebody else might have written. */
export function withMovedWords(diagnosis: Diagnosis, random: Random): Diagnosis {
  const moved = (word: LikelihoodWord): LikelihoodWord => {
    const place = likelihoodWords.indexOf(word) + (random() < 0.5 ? -1 : 1);
    return likelihoodWords[Math.min(likelihoodWords.length - 1, Math.max(0, place))] ?? word;
  };
  const cells = (likely: Cause['likely']): Cause['likely'] =>
    Object.fromEntries(
      Object.entries(likely).map(([finding, choices]) => [
        finding,
        Object.fromEntries(Object.entries(choices).map(([choice, word]) => [choice, moved(word)])),
      ]),
    );
  return {
    ...diagnosis,
    causes: diagnosis.causes.map((cause) => ({ ...cause, likely: cells(cause.likely) })),
  };
}
