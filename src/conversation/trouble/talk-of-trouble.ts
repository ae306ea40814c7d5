import type { Found } from '../../diagnosis/trouble.ts';
import { stageOf } from '../../rulebook/book.ts';
import type { Diagnosis, Finding } from '../../rulebook/diagnosis-schema.ts';
import {
  checkQuestionId,
  doesNotApply,
  findingAsked,
  troubleAsks,
} from '../../rulebook/trouble-questions.ts';
import { change, type Draft, say, without } from '../draft.ts';
import { enterStage, occasionOf } from '../enter-stage.ts';
import type { Answer, EventBody } from '../events.ts';
import { raiseAlarm } from '../raise-alarm.ts';
import type { State } from '../state.ts';
import { isUrgent } from '../understanding/urgent.ts';
import { causeName, findingLine } from './in-words.ts';
import { nextInTrouble } from './next-in-trouble.ts';
import { tellVerdict } from './tell-verdict.ts';
import { noTrouble, type TroubleTalk } from './trouble-case.ts';

type Described = Extract<EventBody, { type: 'TroubleDescribed' }>;

/** A description this long would be shown as the question again and again; the log keeps all of it. */
const longestShown = 300;

function diagnosisOf({ book }: Draft): Diagnosis {
  if (!book.diagnosis) throw new Error('these rules have no causes of trouble');
  return book.diagnosis;
}

function update(draft: Draft, part: Partial<TroubleTalk>): void {
  const { trouble } = draft.state;
  if (trouble) change(draft, { trouble: { ...trouble, ...part } });
}

/** The trouble stages that a stage of the talk may stand for. */
function stagesLike(diagnosis: Diagnosis, stage: string): string[] {
  return diagnosis.weighing.stages.filter(({ talk }) => talk.includes(stage)).map(({ id }) => id);
}

/** Begins to find out what went wrong; the batch waits at its place. */
export function beginTrouble(draft: Draft, alone: boolean): void {
  const like = alone ? [] : stagesLike(diagnosisOf(draft), draft.state.stage);
  const [stage] = like;
  const known = like.length === 1 && stage !== undefined;
  change(draft, {
    trouble: { ...noTrouble, alone, stage: known ? stage : undefined, stageSettled: known },
    doubt: undefined,
    asking: undefined,
    // Going back ends at the beginning of this: it would take an answer of the batch and drop the trouble unseen.
    floor: draft.state.past.length,
  });
  const place = alone ? '' : ' The batch waits at its place.';
  say(
    draft,
    'note',
    `We find out what went wrong.${place} Ask why at any check, = shows what I think so far, "leave it" ends this.`,
  );
}

/** Takes a description: what was read is said back. */
export function describeTrouble(draft: Draft, event: Described): void {
  if (!draft.state.trouble) beginTrouble(draft, false);
  const { complaints, found, stage, text } = event;
  const settled = draft.state.trouble?.stageSettled ?? false;
  update(draft, {
    words: text.slice(0, longestShown),
    proposed: complaints,
    read: found,
    ...(stage !== undefined && !settled ? { stage, stageSettled: true } : {}),
  });
  say(draft, 'answer', text.slice(0, longestShown), { asked: diagnosisOf(draft).talk.words.ask });
  if (complaints.length + found.length === 0)
    say(draft, 'asks-back', 'I do not know these words for a trouble. Take the nearest from the list.');
  // Nobody types these words calmly: what the danger is comes before what was understood.
  if (event.urgent) raiseAlarm(draft);
}

function sayUnderstood(draft: Draft, { proposed, read }: TroubleTalk): void {
  const complaint = diagnosisOf(draft).complaints.find(({ id }) => id === proposed[0]);
  const lines = [
    ...(complaint ? [`- Trouble: ${complaint.say}`] : []),
    ...read.map((one) => findingLine(diagnosisOf(draft), one)),
  ];
  say(draft, 'asks-back', ['I understood:', ...lines].join('\n'));
}

/** Whether urgent words already had this alarm asked for and dealt with. */
function isDealtWith({ trouble, answers }: State, alarm: string | undefined): boolean {
  const given = answers.alarm?.answer;
  return isUrgent(trouble?.words ?? '') && given?.kind === 'choice' && given.choice === alarm;
}

/** Makes a complaint count; one that is dangerous in itself is dealt with first. */
function settleComplaint(draft: Draft, id: string): void {
  const complaint = diagnosisOf(draft).complaints.find((one) => one.id === id);
  const alarm = isDealtWith(draft.state, complaint?.alarm) ? undefined : complaint?.alarm;
  const alarmDue = draft.state.trouble?.alarmDue ?? alarm;
  update(draft, { complaint: id, complaintSettled: true, alarmDue });
  // Fuel of an earlier batch may go wrong while another one is being made: where it showed is then asked.
  const { stage } = draft.state.trouble ?? {};
  if (stage !== undefined && !complaint?.stages.includes(stage))
    update(draft, { stage: undefined, stageSettled: false });
}

function addFound(draft: Draft, found: readonly Found[]): void {
  const before = draft.state.trouble?.found ?? [];
  const { findings } = diagnosisOf(draft);
  const fresh = found.filter((one) => !before.some(({ finding }) => finding === one.finding));
  const alarms = fresh.map(
    ({ finding, choice }) => findings.find(({ id }) => id === finding)?.choices[choice]?.alarm,
  );
  const alarm = alarms.find((one) => one !== undefined);
  update(draft, { found: [...before, ...fresh], ...(alarm === undefined ? {} : { alarmDue: alarm }) });
}

function takeConfirmation(draft: Draft, yes: boolean): void {
  const { proposed = [], read = [] } = draft.state.trouble ?? {};
  update(draft, { proposed: [], read: [] });
  if (!yes) {
    update(draft, { toAsk: read.map(({ finding }) => finding) });
    return;
  }
  addFound(draft, read);
  const [first] = proposed;
  if (first !== undefined) settleComplaint(draft, first);
}

/** The maker knows what a check shows, does not know it, or says that it makes no sense here. */
function takeCheck(draft: Draft, finding: Finding, answer: Answer): void {
  const { passed = [], denied = [], toAsk = [] } = draft.state.trouble ?? {};
  update(draft, { toAsk: toAsk.filter((id) => id !== finding.id), outcome: undefined });
  if (answer.kind === 'choice' && answer.choice !== doesNotApply) {
    addFound(draft, [{ finding: finding.id, choice: answer.choice }]);
    return;
  }
  update(draft, { passed: [...passed, finding.id] });
  if (answer.kind === 'choice' && finding.gate !== undefined)
    update(draft, { denied: [...denied, finding.gate] });
}

/** Ends the finding out; what was answered stays in the log only. */
export function leaveTrouble(draft: Draft): void {
  change(draft, {
    trouble: undefined,
    doubt: undefined,
    asking: undefined,
    answers: without(draft.state.answers, Object.keys(draft.state.answers).filter(isOfTrouble)),
    floor: draft.state.past.length,
  });
}

function takeWayOn(draft: Draft, way: string): void {
  const { trouble, path } = draft.state;
  const [first] = trouble?.outcome?.causes ?? [];
  if (way === 'more') {
    const ruledOut = [...(trouble?.ruledOut ?? []), ...(first ? [first.id] : [])];
    update(draft, { ruledOut, outcome: undefined, told: false });
    change(draft, { answers: without(draft.state.answers, [troubleAsks.next]) });
    return;
  }
  const to = diagnosisOf(draft).causes.find(({ id }) => id === first?.id)?.['back-to'];
  const { alone } = trouble ?? {};
  leaveTrouble(draft);
  if (way !== 'cure' || to === undefined) return;
  if (alone) say(draft, 'note', `The cure begins here in the work: ${stageOf(draft.book, to).title}.`);
  else if (path.includes(to)) enterStage(draft, to);
  else
    say(draft, 'note', 'The cure begins at a stage that this batch has not come to; we go on where we were.');
}

/** Takes the answer to a question of the trouble. */
export function takeInTrouble(draft: Draft, question: string, answer: Answer): void {
  const finding = diagnosisOf(draft).findings.find(({ id }) => checkQuestionId(id) === question);
  if (finding) takeCheck(draft, finding, answer);
  else if (question === troubleAsks.right) takeConfirmation(draft, answer.kind === 'yes-no' && answer.yes);
  else if (question === troubleAsks.complaint) {
    if (answer.kind === 'choice') settleComplaint(draft, answer.choice);
    else update(draft, { complaintSettled: true });
  } else if (question === troubleAsks.stage) {
    update(draft, { stageSettled: true, stage: answer.kind === 'choice' ? answer.choice : undefined });
  } else if (question === troubleAsks.next && answer.kind === 'choice') takeWayOn(draft, answer.choice);
}

/** Whether a question belongs to the finding out of what went wrong. */
export function isOfTrouble(question: string): boolean {
  return findingAsked(question) !== undefined || (Object.values(troubleAsks) as string[]).includes(question);
}

function sayCaution(draft: Draft, question: string): void {
  const finding = diagnosisOf(draft).findings.find(({ id }) => checkQuestionId(id) === question);
  if (finding?.caution) say(draft, 'advice', finding.caution.say, { signal: finding.caution.signal });
}

function askToWeigh(draft: Draft, trouble: TroubleTalk): void {
  const { complaint, stage, found, passed, denied, ruledOut } = trouble;
  draft.effects.push({
    do: 'weigh',
    trouble: { complaint, stage, found, passed, denied, ruledOut },
    occasion: occasionOf(draft.state),
  });
  update(draft, { weighing: true });
}

/** Goes on with the finding out: danger first, then the next question, or the causes weighed anew. */
export function goOnInTrouble(draft: Draft, ask: (question: string) => void): void {
  const { trouble } = draft.state;
  if (!trouble || trouble.weighing) return;
  if (trouble.alarmDue !== undefined) {
    const answer: Answer = { kind: 'choice', choice: trouble.alarmDue };
    update(draft, { alarmDue: undefined });
    draft.effects.push({ do: 'give', question: 'alarm', answer, text: trouble.words ?? '' });
    return;
  }
  const next = nextInTrouble(trouble);
  if (next === 'weigh') {
    askToWeigh(draft, trouble);
    return;
  }
  if (draft.state.asking !== next.ask) {
    sayCaution(draft, next.ask);
    if (next.ask === troubleAsks.right) sayUnderstood(draft, trouble);
  }
  const { waiting } = draft.state;
  ask(next.ask);
  // A wait of the batch goes on meanwhile; it does not begin anew because of the trouble.
  if (waiting) change(draft, { waiting });
}

/** Takes in what was thought of the trouble; the verdict is said once there is nothing more worth asking. */
export function takeOutcome(draft: Draft, outcome: NonNullable<TroubleTalk['outcome']>): void {
  update(draft, { weighing: false, outcome });
  if (!draft.state.trouble?.toldLog && outcome.fromLog.length > 0) {
    update(draft, { toldLog: true });
    const lines = outcome.fromLog.map((one) => findingLine(diagnosisOf(draft), one));
    say(draft, 'note', ['From the log I take:', ...lines].join('\n'));
  }
  const { trouble } = draft.state;
  if (!trouble) return;
  if (outcome.two && outcome.next && !trouble.toldTwo) {
    const [one, other] = outcome.causes.map(({ id }) => causeName(diagnosisOf(draft), id));
    say(
      draft,
      'note',
      `No one cause explains it well. It may be two at once: ${one} and ${other}. We look on.`,
    );
    update(draft, { toldTwo: true });
  }
  if (outcome.next || trouble.told) return;
  tellVerdict(draft, diagnosisOf(draft), outcome);
  update(draft, { told: true });
}
