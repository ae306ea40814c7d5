import { weightInWords } from '../../diagnosis/evidence.ts';
import type { Cause, Diagnosis } from '../../rulebook/diagnosis-schema.ts';
import { type Draft, say } from '../draft.ts';
import type { TroubleOutcome } from '../events.ts';
import { factTable } from '../facts.ts';
import { checkInWords, percent } from './in-words.ts';

/** Answers named as evidence; more would bury the strong ones. */
const mostNamed = 6;

/** What speaks for and against a cause, in words, the strongest first. */
export function evidenceLines(diagnosis: Diagnosis, outcome: TroubleOutcome, cause: string): string[] {
  return (outcome.evidence[cause] ?? []).slice(0, mostNamed).map(({ finding, choice, weight }) => {
    const { asked, showed } = checkInWords(diagnosis, { finding, choice });
    return `- ${asked.replace(/[?.:]$/, '')}: ${showed}; ${weightInWords(weight)}`;
  });
}

/** The doses for this batch, where the log has what they need; else how to get them. */
function doseOf(draft: Draft, { dose }: Cause): string | undefined {
  if (!dose) return undefined;
  const { values } = factTable(draft.state);
  const isKnown = (fact: string) =>
    fact.startsWith('limit.') || values[fact] !== undefined || draft.state.figures[fact] !== undefined;
  return dose.needs.every(isKnown) ? dose.say : dose.else;
}

function tellCause(draft: Draft, diagnosis: Diagnosis, outcome: TroubleOutcome, cause: Cause): void {
  const evidence = evidenceLines(diagnosis, outcome, cause.id);
  if (evidence.length > 0)
    say(draft, 'advice', [`What speaks for or against ${cause.name}:`, ...evidence].join('\n'));
  say(draft, 'advice', `Proof: ${cause.proof}`);
  say(draft, 'advice', `Cure: ${cause.cure}`, { id: `cause ${cause.id}`, because: cause.because });
  const dose = doseOf(draft, cause);
  if (dose) say(draft, 'figure', `For this batch: ${dose}`);
  say(draft, 'advice', `Left alone: ${cause.danger}`, { signal: 'CAUTION' });
  say(draft, 'advice', `Next time: ${cause.prevent}`);
  say(draft, 'note', `For the log: ${cause.log}`);
}

function causeOf(diagnosis: Diagnosis, id: string | undefined): Cause | undefined {
  return diagnosis.causes.find((cause) => cause.id === id);
}

/** How an unsure verdict goes on: who comes second, and what would tell the two apart. */
function sayNotSure(draft: Draft, diagnosis: Diagnosis, outcome: TroubleOutcome): void {
  const [, second] = outcome.causes;
  const other = causeOf(diagnosis, second?.id);
  if (!second || !other) return;
  const test = diagnosis.findings.find(({ id }) => id === outcome.apart);
  const apart = test
    ? ` What would tell them apart: ${test.ask}`
    : ' Nothing that can be checked here tells them apart.';
  say(draft, 'advice', `I am not sure. Next comes ${other.name} (${percent(second.probability)}).${apart}`, {
    signal: 'NOTICE',
  });
}

/** Says the cause, how sure that is and on what evidence, the proof, the cure and what to write down. */
export function tellVerdict(draft: Draft, diagnosis: Diagnosis, outcome: TroubleOutcome): void {
  const [first, second] = outcome.causes;
  const cause = causeOf(diagnosis, first?.id);
  if (!first || !cause) return;
  const opening = outcome.settled ? 'Found' : 'Most likely';
  say(draft, 'advice', `${opening} (${percent(first.probability)}): ${cause.say}`, {
    id: `cause ${cause.id}`,
  });
  const other = causeOf(diagnosis, second?.id);
  const both = outcome.two && second !== undefined && other !== undefined;
  if (both) {
    const words = `It looks like two things at once: also ${other.name} (${percent(second.probability)}). Treat both, this one first.`;
    say(draft, 'advice', words, { signal: 'NOTICE' });
  } else if (!outcome.settled) sayNotSure(draft, diagnosis, outcome);
  tellCause(draft, diagnosis, outcome, cause);
  if (both) tellCause(draft, diagnosis, outcome, other);
}
