import { factsSetBy } from './book.ts';
import type { Condition } from './condition.ts';
import { factsOf } from './condition.ts';
import type { Cause, Complaint, Diagnosis, Finding } from './diagnosis-schema.ts';
import type { Loading } from './loading.ts';

type Say = (key: string, says: string) => void;

/** Shares are written to two places; their sum may miss 1 by rounding only. */
const roundingOff = 0.005;

function checkFinding({ book }: Loading, { weighing, gates }: Diagnosis, finding: Finding, say: Say): void {
  const key = `check ${finding.id}`;
  const choices = Object.entries(finding.choices);
  const sum = choices.reduce((total, [, { share }]) => total + share, 0);
  if (Math.abs(sum - 1) > roundingOff) say(key, `its shares add up to ${sum.toFixed(2)}, not to 1`);
  const phrases = choices
    .flatMap(([, choice]) => [choice.say, ...(choice.also ?? [])])
    .map((one) => one.toLowerCase());
  for (const twice of phrases.filter((one, index) => phrases.indexOf(one) !== index))
    say(key, `"${twice}" stands for more than one of its choices, or twice for one`);
  const stages = weighing.stages.map(({ id }) => id);
  for (const stage of finding.where) if (!stages.includes(stage)) say(key, `"${stage}" is no trouble stage`);
  if (finding.gate !== undefined && !gates.some(({ id }) => id === finding.gate))
    say(key, `there is no gate "${finding.gate}"`);
  for (const choice of Object.keys(finding.bands?.of ?? {}))
    if (!Object.hasOwn(finding.choices, choice)) say(key, `"${choice}" has a band and is no choice`);
  if (finding.risk !== 'none' && !finding.caution) say(key, 'has a risk and no caution');
  const { answer } = book.questions.alarm ?? {};
  const alarms = answer && 'choice' in answer ? Object.keys(answer.choice) : [];
  for (const [, { alarm }] of choices)
    if (alarm !== undefined && !alarms.includes(alarm)) say(key, `"${alarm}" is no choice of the alarm`);
}

function checkCause({ book, order }: Loading, diagnosis: Diagnosis, cause: Cause, say: Say): void {
  const key = `cause ${cause.id}`;
  const source = typeof cause.source === 'string' ? cause.source : cause.source.id;
  if (!(source in book.sources)) say(key, `the source "${source}" is not in sources.yaml`);
  const back = cause['back-to'];
  if (back !== undefined && !order.includes(back)) say(key, `there is no stage "${back}" in flow.yaml`);
  const stages = diagnosis.weighing.stages.map(({ id }) => id);
  for (const stage of Object.keys(cause.odds))
    if (!stages.includes(stage)) say(key, `"${stage}" is no trouble stage`);
  for (const [id, cells] of Object.entries(cause.likely)) {
    const finding = diagnosis.findings.find((one) => one.id === id);
    if (!finding) say(key, `there is no check "${id}"`);
    for (const choice of Object.keys(cells))
      if (finding && !Object.hasOwn(finding.choices, choice)) say(key, `"${choice}" is no choice of "${id}"`);
  }
  const isReached = diagnosis.complaints.some(
    ({ core, possible, stages: usual }) =>
      [...core, ...possible].includes(cause.id) && usual.some((stage) => cause.odds[stage] !== undefined),
  );
  if (!isReached) say(key, 'no complaint leads to it at a stage where it can show');
}

/** Two causes are told apart by a check that treats them differently, or by showing at no common stage. */
function isToldApart(one: Cause, other: Cause, findings: readonly Finding[]): boolean {
  const common = Object.keys(one.odds).filter((stage) => other.odds[stage] !== undefined);
  if (common.length === 0) return true;
  const askable = findings.filter(({ where }) => where.some((stage) => common.includes(stage)));
  const cells = (cause: Cause, id: string) => JSON.stringify(Object.entries(cause.likely[id] ?? {}).sort());
  return askable.some(({ id }) => cells(one, id) !== cells(other, id));
}

function checkSets(diagnosis: Diagnosis, { sets = [] }: Complaint, key: string, say: Say): void {
  for (const { finding: id, among } of sets) {
    const finding = diagnosis.findings.find((one) => one.id === id);
    if (!finding) say(key, `there is no check "${id}"`);
    for (const choice of among)
      if (finding && !Object.hasOwn(finding.choices, choice)) say(key, `"${choice}" is no choice of "${id}"`);
  }
}

function checkComplaints({ book }: Loading, diagnosis: Diagnosis, say: Say): void {
  const causes = diagnosis.causes.map(({ id }) => id);
  const stages = diagnosis.weighing.stages.map(({ id }) => id);
  const { answer } = book.questions.alarm ?? {};
  const alarms = answer && 'choice' in answer ? Object.keys(answer.choice) : [];
  for (const complaint of diagnosis.complaints) {
    const key = `complaint ${complaint.id}`;
    for (const cause of [...complaint.core, ...complaint.possible])
      if (!causes.includes(cause)) say(key, `there is no cause "${cause}"`);
    for (const stage of [...complaint.stages, ...(complaint.sets ?? []).flatMap((set) => set.stages ?? [])])
      if (!stages.includes(stage)) say(key, `"${stage}" is no trouble stage`);
    checkSets(diagnosis, complaint, key, say);
    if (complaint.alarm !== undefined && !alarms.includes(complaint.alarm))
      say(key, `"${complaint.alarm}" is no choice of the alarm`);
  }
}

/** Facts that only the diagnosis knows. */
function isOwnFact(diagnosis: Diagnosis, fact: string): boolean {
  if (fact === 'complaint' || fact === 'trouble-stage') return true;
  return fact.startsWith('found.') && diagnosis.findings.some(({ id }) => `found.${id}` === fact);
}

function checkConditions({ book }: Loading, diagnosis: Diagnosis, say: Say): void {
  const computed = new Set(book.computations.flatMap(factsSetBy));
  const isFact = (fact: string) => {
    const [kind, id = ''] = fact.split(/\.(.*)/);
    if (kind === 'limit') return id in book.limits;
    if (kind === 'asked' || kind === 'status' || kind === 'minutes') return id in book.questions;
    return fact in book.questions || computed.has(fact);
  };
  const check = (key: string, condition: Condition | undefined, own: boolean) => {
    for (const fact of condition ? factsOf(condition) : [])
      if (!isFact(fact) && !(own && isOwnFact(diagnosis, fact)))
        say(key, `"${fact}" is no question, computed fact or limit`);
  };
  for (const gate of diagnosis.gates) {
    check(`gate ${gate.id}`, gate.open, true);
    check(`gate ${gate.id}`, gate.shut, true);
  }
  for (const finding of diagnosis.findings)
    for (const choice of Object.values(finding.choices)) check(`check ${finding.id}`, choice.log, false);
  for (const { id, dose } of diagnosis.causes)
    for (const fact of dose?.needs ?? []) if (!isFact(fact)) say(`cause ${id}`, `"${fact}" is no fact`);
}

/** Every id resolves, shares add up, every cause can be reached, and any two are told apart by some check. */
export function checkDiagnosis(loading: Loading, diagnosis: Diagnosis): void {
  const say: Say = (key, says) => {
    const written = loading.written.get(key);
    loading.mistakes.push(
      written ? written.file.mistake(written.path, says) : { file: 'diagnosis', says: `${key}: ${says}` },
    );
  };
  for (const finding of diagnosis.findings) checkFinding(loading, diagnosis, finding, say);
  for (const cause of diagnosis.causes) checkCause(loading, diagnosis, cause, say);
  checkComplaints(loading, diagnosis, say);
  checkConditions(loading, diagnosis, say);
  diagnosis.causes.forEach((one, index) => {
    for (const other of diagnosis.causes.slice(index + 1))
      if (!isToldApart(one, other, diagnosis.findings))
        say(`cause ${one.id}`, `no check tells it from "${other.id}"`);
  });
  const inTalk = diagnosis.weighing.stages.flatMap(({ talk }) => talk);
  for (const stage of inTalk)
    if (!loading.order.includes(stage))
      say('part of the diagnosis weighing', `there is no stage "${stage}" in flow.yaml`);
  const grouped = diagnosis.weighing.groups.flat();
  for (const id of grouped)
    if (!diagnosis.findings.some((finding) => finding.id === id))
      say('part of the diagnosis weighing', `there is no check "${id}" to group`);
}
