import type { Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';
import { judge, type KnownFacts } from '../rulebook/three-valued.ts';
import { choicesLeft, type Found, stagesOf, type Trouble } from './trouble.ts';

/** Whether the trouble shows where this batch has not come to yet: then it is the trouble of another one. */
function isOfAnotherBatch(diagnosis: Diagnosis, trouble: Trouble, ahead: readonly string[]): boolean {
  const { stages } = diagnosis.weighing;
  const firstAhead = stages.findIndex(
    ({ talk }) => talk.length > 0 && talk.every((id) => ahead.includes(id)),
  );
  const reached = stages.slice(0, firstAhead < 0 ? stages.length : firstAhead).map(({ id }) => id);
  return !stagesOf(diagnosis, trouble).some((id) => reached.includes(id));
}

/** The choice of a finding that the log of the batch already gives, if it gives one. */
function choiceKnown(finding: Finding, known: KnownFacts): string | undefined {
  const given = Object.entries(finding.choices).find(([, { log }]) => log && judge(log, known) === 'true');
  if (given) return given[0];
  const said = known[finding.id];
  return typeof said === 'string' && Object.hasOwn(finding.choices, said) ? said : undefined;
}

/**
 * What the log already knows: what a finding says the log must show, or else the talk's question of the same name.
 * Where the complaint is itself the newer answer (oil falls out now, whatever fell out then) the log's is left out.
 * @param ahead  the stages of the talk that the batch has not come to yet
 */
export function findingsInLog(
  diagnosis: Diagnosis,
  known: KnownFacts,
  trouble: Trouble,
  ahead: readonly string[],
): Found[] {
  if (isOfAnotherBatch(diagnosis, trouble, ahead)) return [];
  return diagnosis.findings.flatMap((finding) => {
    const choice = finding.now ? undefined : choiceKnown(finding, known);
    const fits = choice !== undefined && choicesLeft(diagnosis, trouble, finding).includes(choice);
    return fits ? [{ finding: finding.id, choice }] : [];
  });
}
