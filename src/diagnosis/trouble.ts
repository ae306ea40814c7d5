import type { Complaint, Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';

/** An answer to a check, as one of its choices. */
export interface Found {
  finding: string;
  choice: string;
}

/** A trouble as far as it is known. Order of `found` is the order in which the answers came. */
export interface Trouble {
  complaint?: string | undefined;
  /** A trouble stage of the rules; nothing where nobody knows. */
  stage?: string | undefined;
  found: readonly Found[];
  /** Checks that were put and not answered: they say nothing and are not put again. */
  passed: readonly string[];
  /** Causes that it is known not to be. */
  ruledOut?: readonly string[];
}

export function complaintOf(diagnosis: Diagnosis, id: string | undefined): Complaint | undefined {
  return diagnosis.complaints.find((complaint) => complaint.id === id);
}

export function findingOf(diagnosis: Diagnosis, id: string): Finding {
  const finding = diagnosis.findings.find((one) => one.id === id);
  if (!finding) throw new Error(`the rules have no check "${id}"`);
  return finding;
}

/** The trouble stages that are possible: the known one, else those where the complaint usually shows. */
export function stagesOf(diagnosis: Diagnosis, { stage, complaint }: Trouble): readonly string[] {
  if (stage !== undefined) return [stage];
  return complaintOf(diagnosis, complaint)?.stages ?? diagnosis.weighing.stages.map(({ id }) => id);
}

/** The choices among which the complaint itself already puts a finding; all of them where it says nothing. */
export function choicesLeft(diagnosis: Diagnosis, trouble: Trouble, finding: Finding): readonly string[] {
  const stages = stagesOf(diagnosis, trouble);
  const set = complaintOf(diagnosis, trouble.complaint)?.sets?.find(
    (one) =>
      one.finding === finding.id &&
      (one.stages === undefined || stages.every((id) => one.stages?.includes(id))),
  );
  return set?.among ?? Object.keys(finding.choices);
}
