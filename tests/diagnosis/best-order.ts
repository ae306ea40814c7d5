import { beliefs, likelihoods } from '../../src/diagnosis/beliefs.ts';
import { gateFacts, openGates } from '../../src/diagnosis/gates.ts';
import { costOf, rankChecks } from '../../src/diagnosis/next-check.ts';
import { type Found, findingOf, type Trouble } from '../../src/diagnosis/trouble.ts';
import type { Diagnosis } from '../../src/rulebook/diagnosis-schema.ts';

/** What acting on the wrong cause costs, in the units of a check: a day lost, about. */
const costOfBeingWrong = 10;

interface Problem {
  diagnosis: Diagnosis;
  start: Trouble;
  /** The only checks of this small problem. */
  checks: readonly string[];
}

/** A complaint at a stage with the few checks that promise most: small enough to try every order. */
export function smallProblem(diagnosis: Diagnosis, complaint: string, stage: string, size: number): Problem {
  const start: Trouble = { complaint, stage, found: [], passed: [] };
  const open = openGates(diagnosis, gateFacts({}, start), []);
  const checks = rankChecks(diagnosis, start, beliefs(diagnosis, start), open)
    .slice(0, size)
    .map(({ finding }) => finding);
  return { diagnosis, start, checks };
}

/** How probable each answer to a check is now. */
function answersTo(problem: Problem, trouble: Trouble, now: Float64Array, finding: string) {
  const { choices, of } = likelihoods(problem.diagnosis, trouble, finding);
  return choices.map((choice, place) => ({
    found: { finding, choice } satisfies Found,
    chance: now.reduce((sum, belief, cause) => sum + belief * (of[cause]?.[place] ?? 0), 0),
  }));
}

type Policy = 'best' | 'ours';

/** The expected cost from here on, under the best possible order or under the program's own choice. */
function expected(problem: Problem, trouble: Trouble, policy: Policy, known: Map<string, number>): number {
  const key = JSON.stringify(trouble.found.map(({ finding, choice }) => `${finding}=${choice}`));
  const kept = known.get(key);
  if (kept !== undefined) return kept;
  const { diagnosis } = problem;
  const now = beliefs(diagnosis, trouble);
  const best = Math.max(...now);
  const stop = (1 - best) * costOfBeingWrong;
  const costOfAsking = (finding: string) =>
    answersTo(problem, trouble, now, finding).reduce(
      (sum, { found, chance }) =>
        sum + chance * expected(problem, { ...trouble, found: [...trouble.found, found] }, policy, known),
      costOf(diagnosis, findingOf(diagnosis, finding)),
    );
  const open = openGates(diagnosis, gateFacts({}, trouble), []);
  const ranked = rankChecks(diagnosis, trouble, now, open).filter(
    ({ finding, gain }) => problem.checks.includes(finding) && gain > diagnosis.weighing['worth-asking'],
  );
  const asked = policy === 'ours' ? ranked.slice(0, 1) : ranked;
  const isOver = best >= diagnosis.weighing.settled || asked.length === 0;
  // Both stop alike: when a cause is settled, or when no check of the few is worth asking.
  const cost = isOver ? stop : Math.min(...asked.map(({ finding }) => costOfAsking(finding)));
  known.set(key, cost);
  return cost;
}

/** The expected cost of the best order by trying all of them, and of the program's own. */
export function compare(problem: Problem): { best: number; ours: number } {
  return {
    best: expected(problem, problem.start, 'best', new Map()),
    ours: expected(problem, problem.start, 'ours', new Map()),
  };
}
