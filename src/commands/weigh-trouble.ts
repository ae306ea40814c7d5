import type { TroubleOutcome } from '../conversation/events.ts';
import type { TroubleCase } from '../conversation/trouble/trouble-case.ts';
import { evidenceFor } from '../diagnosis/evidence.ts';
import { findingsInLog } from '../diagnosis/from-log.ts';
import type { Found, Trouble } from '../diagnosis/trouble.ts';
import { weigh } from '../diagnosis/verdict.ts';
import { type Book, stagesAfter } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Diagnosis } from '../rulebook/diagnosis-schema.ts';
import type { Occasion } from '../rulebook/evaluation.ts';

/** Causes kept in the log, and those of them whose evidence is. */
const mostKept = 6;
const mostExplained = 3;

const rounded = (value: number) => Number(value.toPrecision(4));

function diagnosisOf(book: Book): Diagnosis {
  if (!book.diagnosis) throw new Error('these rules have no causes of trouble');
  return book.diagnosis;
}

/** What the log says first, then what the maker answered; where both speak, the maker's answer counts. */
function joined(fromLog: readonly Found[], trouble: TroubleCase): Trouble {
  const said = trouble.found.map(({ finding }) => finding);
  const found = [...fromLog.filter(({ finding }) => !said.includes(finding)), ...trouble.found];
  return { ...trouble, found };
}

/** Weighs the causes of a trouble on what the batch and the maker say. */
export function weighTrouble(book: Book, trouble: TroubleCase, occasion: Occasion): TroubleOutcome {
  const diagnosis = diagnosisOf(book);
  const known = comparable(book, occasion.facts, occasion.figures);
  const fromLog = findingsInLog(diagnosis, known, trouble, stagesAfter(book, occasion.stage));
  const whole = joined(fromLog, trouble);
  const { causes, next, settled, two, apart } = weigh(diagnosis, whole, known, trouble.denied);
  const kept = causes
    .slice(0, mostKept)
    .map(({ id, probability }) => ({ id, probability: rounded(probability) }));
  const evidence = kept
    .slice(0, mostExplained)
    .map(({ id }) => [
      id,
      evidenceFor(diagnosis, whole, id).map((one) => ({ ...one, weight: rounded(one.weight) })),
    ]);
  return {
    fromLog,
    causes: kept,
    ...(next ? { next: { finding: next.finding, gain: rounded(next.gain), cost: rounded(next.cost) } } : {}),
    settled,
    two,
    ...(apart === undefined ? {} : { apart }),
    evidence: Object.fromEntries(evidence),
  };
}
