import type { Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';
import { likelihoods, powerOf } from './beliefs.ts';
import { choicesLeft, stagesOf, type Trouble } from './trouble.ts';

export interface Check {
  finding: string;
  /** Expected fall of the entropy of the beliefs, nat. */
  gain: number;
  cost: number;
}

function entropy(probabilities: Float64Array): number {
  let sum = 0;
  for (const one of probabilities) if (one > 0) sum -= one * Math.log(one);
  return sum;
}

/** What a check costs: the asking itself, an hour of work, five dollars or a good deal of risk count about alike. */
export function costOf(diagnosis: Diagnosis, { minutes, money, risk }: Finding): number {
  return 1 + minutes / 60 + money / 5 + diagnosis.weighing.risk[risk];
}

/**
 * How much the beliefs are expected to sharpen by the answer to a check, nat.
 * The entropy after an answer comes from the unnormalised weights w: ln(sum w) - (sum w ln w) / (sum w).
 */
export function expectedGain(
  diagnosis: Diagnosis,
  trouble: Trouble,
  now: Float64Array,
  finding: string,
): number {
  const { choices, of } = likelihoods(diagnosis, trouble, finding);
  const before = trouble.found.map((one) => one.finding);
  const power = powerOf(diagnosis, finding, before);
  let after = 0;
  for (const place of choices.keys()) {
    let chance = 0;
    let sum = 0;
    let sumOfLogs = 0;
    for (let cause = 0; cause < now.length; cause += 1) {
      const belief = now[cause] ?? 0;
      if (belief === 0) continue;
      const likely = of[cause]?.[place] ?? 0;
      const weight = belief * (power === 1 ? likely : likely ** power);
      chance += belief * likely;
      sum += weight;
      if (weight > 0) sumOfLogs += weight * Math.log(weight);
    }
    if (sum > 0) after += chance * (Math.log(sum) - sumOfLogs / sum);
  }
  return entropy(now) - after;
}

/** The checks that can be made now: at this stage, behind an open gate, with more than one answer left. */
export function possibleChecks(diagnosis: Diagnosis, trouble: Trouble, open: ReadonlySet<string>): Finding[] {
  const stages = stagesOf(diagnosis, trouble);
  const done = new Set([...trouble.found.map(({ finding }) => finding), ...trouble.passed]);
  return diagnosis.findings.filter(
    (finding) =>
      !done.has(finding.id) &&
      finding.where.some((stage) => stages.includes(stage)) &&
      (finding.gate === undefined || open.has(finding.gate)) &&
      choicesLeft(diagnosis, trouble, finding).length > 1,
  );
}

const alike = 1e-9;

/** Most gain for the cost first; of equals the cheaper one, then the safer one. */
export function rankChecks(
  diagnosis: Diagnosis,
  trouble: Trouble,
  now: Float64Array,
  open: ReadonlySet<string>,
): Check[] {
  const { risk } = diagnosis.weighing;
  return possibleChecks(diagnosis, trouble, open)
    .map((finding) => ({
      finding,
      gain: expectedGain(diagnosis, trouble, now, finding.id),
      cost: costOf(diagnosis, finding),
    }))
    .sort((one, other) => {
      const byValue = other.gain / other.cost - one.gain / one.cost;
      if (Math.abs(byValue) > alike) return byValue;
      return one.cost - other.cost || risk[one.finding.risk] - risk[other.finding.risk];
    })
    .map(({ finding, gain, cost }) => ({ finding: finding.id, gain, cost }));
}
