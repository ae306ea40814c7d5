import type { Diagnosis } from '../rulebook/diagnosis-schema.ts';
import { chancesOf } from './chances.ts';
import { choicesLeft, complaintOf, findingOf, stagesOf, type Trouble } from './trouble.ts';

/** Log odds of the causes before any check: how often each shows at the stage, and how well it fits the complaint. */
function priorLogs(diagnosis: Diagnosis, trouble: Trouble): Float64Array {
  const { fit } = diagnosis.weighing;
  const complaint = complaintOf(diagnosis, trouble.complaint);
  const stages = stagesOf(diagnosis, trouble);
  return Float64Array.from(diagnosis.causes, (cause) => {
    if (trouble.ruledOut?.includes(cause.id)) return Number.NEGATIVE_INFINITY;
    const odds = Math.max(0, ...stages.map((stage) => cause.odds[stage] ?? 0));
    const fits = !complaint
      ? fit.core
      : complaint.core.includes(cause.id)
        ? fit.core
        : complaint.possible.includes(cause.id)
          ? fit.possible
          : fit.other;
    return Math.log(odds * fits);
  });
}

/** From log weights to probabilities, without overflow. Weights of minus infinity are impossible causes. */
export function normalised(logs: Float64Array): Float64Array {
  const top = Math.max(...logs);
  if (top === Number.NEGATIVE_INFINITY) return new Float64Array(logs.length).fill(1 / logs.length);
  const raised = logs.map((log) => Math.exp(log - top));
  const sum = raised.reduce((total, one) => total + one, 0);
  return raised.map((one) => one / sum);
}

/** The power at which an answer counts: findings of one group say in part the same, so the later ones count less. */
export function powerOf(diagnosis: Diagnosis, finding: string, before: readonly string[]): number {
  const { groups, 'group-power': power } = diagnosis.weighing;
  const repeats = groups.some(
    (group) => group.includes(finding) && before.some((one) => group.includes(one)),
  );
  return repeats ? power : 1;
}

/**
 * The likelihood of each choice that is left of a finding, under every cause: `[cause][choice]`.
 * Where the complaint itself leaves only some choices, each is taken among these: that the answer lies there
 * is already in how well the cause fits the complaint.
 */
export function likelihoods(
  diagnosis: Diagnosis,
  trouble: Trouble,
  id: string,
): { choices: readonly string[]; of: readonly Float64Array[] } {
  const finding = findingOf(diagnosis, id);
  const chances = chancesOf(diagnosis);
  const index = chances.findings.get(id) ?? 0;
  const all = chances.choices[index] ?? [];
  const left = choicesLeft(diagnosis, trouble, finding);
  const rows = chances.of[index] ?? [];
  if (left.length === all.length) return { choices: all, of: rows };
  const places = left.map((choice) => all.indexOf(choice));
  const of = rows.map((row) => {
    const among = places.map((place) => row[place] ?? 0);
    const sum = among.reduce((total, one) => total + one, 0);
    return Float64Array.from(among, (one) => one / sum);
  });
  return { choices: left, of };
}

/** What one answer adds to the log weight of every cause. */
export function logFactors(diagnosis: Diagnosis, trouble: Trouble, index: number): Float64Array {
  const found = trouble.found[index];
  if (!found) return new Float64Array(diagnosis.causes.length);
  const before = trouble.found.slice(0, index).map(({ finding }) => finding);
  const power = powerOf(diagnosis, found.finding, before);
  const { choices, of } = likelihoods(diagnosis, trouble, found.finding);
  const place = choices.indexOf(found.choice);
  if (place < 0) return outsideTheSet(diagnosis, found.finding, found.choice, power);
  return Float64Array.from(of, (row) => power * Math.log(row[place] ?? 1));
}

/** The answer is none that the complaint led us to expect: the check is believed, by its plain chances. */
function outsideTheSet(diagnosis: Diagnosis, finding: string, choice: string, power: number): Float64Array {
  const chances = chancesOf(diagnosis);
  const index = chances.findings.get(finding) ?? 0;
  const place = chances.choices[index]?.indexOf(choice) ?? -1;
  return Float64Array.from(chances.of[index] ?? [], (row) => power * Math.log(row[place] ?? 1));
}

/**
 * How probable each cause is, in the order of the rules, by Bayes' rule over the answers so far.
 * @returns probabilities that add up to 1
 */
export function beliefs(diagnosis: Diagnosis, trouble: Trouble): Float64Array {
  const logs = priorLogs(diagnosis, trouble);
  for (const index of trouble.found.keys()) {
    const factors = logFactors(diagnosis, trouble, index);
    for (let cause = 0; cause < logs.length; cause += 1)
      logs[cause] = (logs[cause] ?? 0) + (factors[cause] ?? 0);
  }
  return normalised(logs);
}

export interface Ranked {
  id: string;
  probability: number;
}

/** The causes, the most probable first; equal ones in the order of the rules. */
export function ranked(diagnosis: Diagnosis, probabilities: Float64Array): Ranked[] {
  return diagnosis.causes
    .map(({ id }, index) => ({ id, probability: probabilities[index] ?? 0 }))
    .sort((one, other) => other.probability - one.probability);
}
