import { checkDiagnosis } from './check-diagnosis.ts';
import { type Diagnosis, diagnosisFileSchema } from './diagnosis-schema.ts';
import type { Loading } from './loading.ts';
import { place } from './place.ts';
import type { RuleText } from './rule-text.ts';
import { troubleQuestions } from './trouble-questions.ts';

const lists = { causes: 'cause', findings: 'check', complaints: 'complaint', gates: 'gate' } as const;

/** Takes in one file of rules/diagnosis; causes and checks may be spread over many. */
export function addDiagnosisFile(loading: Loading, file: RuleText): void {
  const text = file.read(diagnosisFileSchema);
  if (!text) return;
  const { diagnosis } = loading;
  for (const list of Object.keys(lists) as (keyof typeof lists)[]) {
    const fresh = (text[list] ?? []).filter((one, index) =>
      place(loading, lists[list], one.id, file, [list, index]),
    );
    diagnosis[list] = [...(diagnosis[list] ?? []), ...fresh] as never;
  }
  for (const part of ['weighing', 'talk'] as const) {
    if (text[part] && place(loading, 'part of the diagnosis', part, file, [part]))
      diagnosis[part] = text[part] as never;
  }
}

/** Joins what was read to the book, with the questions by which a talk asks for it. Rules without causes have none. */
export function joinDiagnosis(loading: Loading): void {
  const { causes = [], findings = [], complaints = [], gates = [], talk, weighing } = loading.diagnosis;
  if (causes.length + findings.length + complaints.length === 0) return;
  if (!weighing || !talk) {
    loading.mistakes.push({ file: 'diagnosis', says: 'causes need a "weighing" part and a "talk" part' });
    return;
  }
  const diagnosis: Diagnosis = { causes, findings, complaints, gates, talk, weighing };
  checkDiagnosis(loading, diagnosis);
  loading.book.diagnosis = diagnosis;
  for (const question of troubleQuestions(diagnosis)) loading.book.questions[question.id] = question;
}
