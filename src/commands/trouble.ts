import { occasionOf } from '../conversation/enter-stage.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { causeName, findingLine } from '../conversation/trouble/in-words.ts';
import { readAnswer } from '../conversation/understanding/read-answer.ts';
import { readDescription } from '../conversation/understanding/read-description.ts';
import { isUrgent } from '../conversation/understanding/urgent.ts';
import { fill } from '../conversation/wording.ts';
import { findingsInLog } from '../diagnosis/from-log.ts';
import type { Found } from '../diagnosis/trouble.ts';
import { type Verdict, weigh } from '../diagnosis/verdict.ts';
import { withMinutes } from '../journal/answer-minutes.ts';
import { type Book, hazardOf, stagesAfter } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Diagnosis, Finding } from '../rulebook/diagnosis-schema.ts';
import { evaluate } from '../rulebook/evaluate.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

export interface TroubleOptions {
  describe: string;
  /** `ID=CHOICE`, as typed. */
  findings: readonly string[];
  stage?: string;
  log?: string;
  rules?: string;
  json: boolean;
}

/** What `--json` prints. */
export interface TroubleFound {
  complaint: string | null;
  understood: Record<string, string>;
  stops: { id: string; signal: string; says: string }[];
  causes: { id: string; probability: number }[];
  nextCheck: { finding: string; gain: number; cost: number } | null;
  settled: boolean;
}

function diagnosisOf({ diagnosis }: Book): Diagnosis {
  if (!diagnosis) throw new UsageError('These rules have no causes of trouble.');
  return diagnosis;
}

function given(diagnosis: Diagnosis, findings: readonly string[]): Found[] {
  return findings.map((text) => {
    const [finding = '', choice = ''] = text.split(/=(.*)/);
    const known = diagnosis.findings.find(({ id }) => id === finding);
    if (!known) throw new UsageError(`There is no check "${finding}". Write --finding CHECK=CHOICE.`);
    if (!Object.hasOwn(known.choices, choice)) {
      const choices = Object.keys(known.choices).join(', ');
      throw new UsageError(`"${choice}" is no choice of the check ${finding}; it has ${choices}.`);
    }
    return { finding, choice };
  });
}

function checkStage(diagnosis: Diagnosis, stage: string | undefined): void {
  const stages = diagnosis.weighing.stages.map(({ id }) => id);
  if (stage !== undefined && !stages.includes(stage))
    throw new UsageError(`There is no trouble stage "${stage}"; there are ${stages.join(', ')}.`);
}

/** Marks that hold wherever the batch may be: a drain limit counts even before the altitude is known. */
async function withFigures(book: Book, state: State): Promise<State> {
  const { figures } = await evaluate(book, withMinutes(occasionOf(state)));
  return { ...state, figures: { ...state.figures, ...figures } };
}

/** The batch as its log tells it; an empty one without a log. */
async function batchOf(book: Book, log: string | undefined): Promise<State> {
  if (log === undefined) return withFigures(book, { ...emptyState, stage: book.stages[0]?.stage ?? '' });
  const [{ readLog }, { replay }, { makeStep }] = await Promise.all([
    import('./read-log.ts'),
    import('../conversation/replay.ts'),
    import('../conversation/step.ts'),
  ]);
  const { records } = readLog(log, 'Say which: --log LOG');
  return replay(
    makeStep(book),
    records.map(({ event }) => event),
  ).state;
}

/** The choices of the alarm question that a description, a complaint or an answer amounts to. */
function alarmsIn(
  book: Book,
  diagnosis: Diagnosis,
  text: string,
  complaint: string | undefined,
  found: readonly Found[],
): string[] {
  const alarm = book.questions.alarm;
  const reading = alarm && isUrgent(text) ? readAnswer(alarm, text) : undefined;
  const meant =
    reading && ('sure' in reading ? reading.sure : 'meant' in reading ? reading.meant : undefined);
  const said = meant?.kind === 'choice' ? [meant.choice] : [];
  const complained = diagnosis.complaints.find(({ id }) => id === complaint)?.alarm;
  const seen = found.flatMap(
    ({ finding, choice }) =>
      diagnosis.findings.find(({ id }) => id === finding)?.choices[choice]?.alarm ?? [],
  );
  return [...new Set([...said, ...(complained === undefined ? [] : [complained]), ...seen])];
}

/** The stops that these alarms set off, whatever is believed about the causes. */
async function stopsFor(book: Book, state: State, alarms: readonly string[]): Promise<string[]> {
  if (alarms.length === 0) return [];
  const occasion = occasionOf(state);
  const unsafeAt = async (alarm: string): Promise<string[]> => {
    const values = { ...occasion.facts.values, alarm };
    const status = { ...occasion.facts.status, alarm: 'known' as const };
    const facts = { ...occasion.facts, values, status };
    return (await evaluate(book, withMinutes({ ...occasion, facts }))).unsafe;
  };
  const calm = await unsafeAt('all-well');
  const stops: string[] = [];
  for (const alarm of alarms) stops.push(...(await unsafeAt(alarm)).filter((stop) => !calm.includes(stop)));
  return [...new Set(stops)];
}

/** The answers of the description, of the command line and of the log; where they differ the command line counts. */
function join(typed: readonly Found[], read: readonly Found[], logged: readonly Found[]): Found[] {
  const all = [...typed, ...read, ...logged];
  return all.filter(({ finding }, index) => all.findIndex((one) => one.finding === finding) === index);
}

export async function findTrouble(
  book: Book,
  options: TroubleOptions,
): Promise<{ found: TroubleFound; verdict: Verdict; state: State }> {
  const diagnosis = diagnosisOf(book);
  checkStage(diagnosis, options.stage);
  const typed = given(diagnosis, options.findings);
  const described = readDescription(diagnosis, options.describe);
  const state = await batchOf(book, options.log);
  const occasion = withMinutes(occasionOf(state));
  const known = comparable(book, occasion.facts, occasion.figures);
  const [complaint] = described.complaints;
  const stage = options.stage ?? described.stage;
  const begun = { complaint, stage, found: [], passed: [] };
  const logged =
    options.log === undefined ? [] : findingsInLog(diagnosis, known, begun, stagesAfter(book, state.stage));
  const found = join(typed, described.found, logged);
  const verdict = weigh(diagnosis, { ...begun, found }, known, []);
  const alarms = alarmsIn(book, diagnosis, options.describe, complaint, [...typed, ...described.found]);
  const stops = await stopsFor(book, state, alarms);
  return {
    verdict,
    state,
    found: {
      complaint: complaint ?? null,
      understood: Object.fromEntries(found.map(({ finding, choice }) => [finding, choice])),
      stops: stops.map((id) => {
        const { signal, say, stop } = hazardOf(book, id);
        return { id, signal, says: fill(book, state, `${say} Before going on: ${stop}`) };
      }),
      causes: verdict.causes.filter(({ probability }) => probability > 0),
      nextCheck: verdict.next ?? null,
      settled: verdict.settled,
    },
  };
}

/** The next check, with what to mind before it. */
function nextInWords({ ask, caution }: Finding): string[] {
  const mind = caution ? [`  ${caution.signal}: ${caution.say}`] : [];
  return [`Next check: ${ask}`, ...mind];
}

function inWords(
  diagnosis: Diagnosis,
  { found, verdict }: { found: TroubleFound; verdict: Verdict },
): string[] {
  const complaint = diagnosis.complaints.find(({ id }) => id === found.complaint);
  const understood = Object.entries(found.understood).map(([finding, choice]) =>
    findingLine(diagnosis, { finding, choice }),
  );
  const next = diagnosis.findings.find(({ id }) => id === found.nextCheck?.finding);
  return [
    ...found.stops.map(({ id, signal, says }) => `STOP ${id}  ${signal}\n  ${says}`),
    complaint
      ? `Trouble: ${complaint.say}`
      : 'I do not know these words for a trouble; the causes below go by the rest.',
    ...understood,
    ...verdict.causes
      .slice(0, 5)
      .map(
        ({ id, probability }) =>
          `${String(Math.round(probability * 100)).padStart(3)} %  ${causeName(diagnosis, id)}`,
      ),
    ...(next
      ? nextInWords(next)
      : [
          verdict.settled
            ? 'That is sure enough to act on.'
            : 'No check that can be made here is worth its cost.',
        ]),
  ];
}

/** `batchside trouble --describe`: what a description points to; it asks nothing and writes nothing. */
export async function trouble(options: TroubleOptions): Promise<number> {
  const book = await openBook(options.rules);
  const result = await findTrouble(book, options);
  const text = options.json
    ? JSON.stringify(result.found)
    : fill(book, result.state, inWords(diagnosisOf(book), result).join('\n'));
  process.stdout.write(`${text}\n`);
  return 0;
}
