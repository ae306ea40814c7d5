import type { Cause, Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';

/** How likely each choice of each finding is under each cause: `of[finding][cause][choice]`, by position. */
export interface Chances {
  findings: ReadonlyMap<string, number>;
  causes: ReadonlyMap<string, number>;
  choices: readonly (readonly string[])[];
  of: readonly (readonly Float64Array[])[];
}

/**
 * The chances of a finding's choices under one cause; they add up to 1.
 * A cause that says nothing of the finding leaves it at its usual shares. Choices it names get its words' chances,
 * held to `most` in sum; the others share the rest as they usually do.
 * @param named  chances of the choices that the cause names, by choice id
 * @param most   what the named choices may add up to while others are left
 */
export function spread(finding: Finding, named: ReadonlyMap<string, number>, most: number): Float64Array {
  const choices = Object.entries(finding.choices);
  const total = [...named.values()].reduce((sum, chance) => sum + chance, 0);
  const isWhole = named.size === choices.length;
  const scale = isWhole ? 1 / total : total > most ? most / total : 1;
  const usual = choices.reduce((sum, [id, { share }]) => (named.has(id) ? sum : sum + share), 0);
  const rest = 1 - total * scale;
  return Float64Array.from(choices, ([id, { share }]) => {
    const chance = named.get(id);
    return chance === undefined ? (rest * share) / usual : chance * scale;
  });
}

function namedBy(diagnosis: Diagnosis, cause: Cause, finding: Finding): Map<string, number> {
  const cells = Object.entries(cause.likely[finding.id] ?? {});
  return new Map(cells.map(([choice, word]) => [choice, diagnosis.weighing.words[word]]));
}

function makeChances(diagnosis: Diagnosis): Chances {
  const { causes, findings, weighing } = diagnosis;
  return {
    findings: new Map(findings.map(({ id }, index) => [id, index])),
    causes: new Map(causes.map(({ id }, index) => [id, index])),
    choices: findings.map((finding) => Object.keys(finding.choices)),
    of: findings.map((finding) =>
      causes.map((cause) => spread(finding, namedBy(diagnosis, cause, finding), weighing.most)),
    ),
  };
}

const made = new WeakMap<Diagnosis, Chances>();

/** The whole table, worked out once. */
export function chancesOf(diagnosis: Diagnosis): Chances {
  const kept = made.get(diagnosis) ?? makeChances(diagnosis);
  made.set(diagnosis, kept);
  return kept;
}
