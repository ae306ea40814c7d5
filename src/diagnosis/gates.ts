import type { Diagnosis, Gate } from '../rulebook/diagnosis-schema.ts';
import { judge, type KnownFacts } from '../rulebook/three-valued.ts';
import type { Trouble } from './trouble.ts';

/** Facts that gates may look at: those of the batch, and what is known of the trouble. */
export function gateFacts(facts: KnownFacts, trouble: Trouble): KnownFacts {
  const own: Record<string, string> = {};
  if (trouble.complaint !== undefined) own.complaint = trouble.complaint;
  if (trouble.stage !== undefined) own['trouble-stage'] = trouble.stage;
  for (const { finding, choice } of trouble.found) own[`found.${finding}`] = choice;
  return Object.assign(Object.create(facts), own);
}

/** A gate that only says when it is open waits for that; any other is open until it is known to be shut. */
function isOpen({ open, shut }: Gate, known: KnownFacts): boolean {
  if (shut) return judge(shut, known) !== 'true';
  return open === undefined || judge(open, known) === 'true';
}

/** The gates behind which a check makes sense now. `denied` are those that the maker said do not apply. */
export function openGates(
  diagnosis: Diagnosis,
  known: KnownFacts,
  denied: readonly string[],
): ReadonlySet<string> {
  const open = diagnosis.gates.filter((gate) => !denied.includes(gate.id) && isOpen(gate, known));
  return new Set(open.map(({ id }) => id));
}
