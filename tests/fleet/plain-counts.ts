/** The questions of docs/fleet.md, counted by plain code from the events: what the SQL there has to come to. */
export type Journals = readonly { file: string; lines: readonly string[] }[];
type Row = (string | number | undefined)[];

interface Event {
  type: string;
  question?: string;
  answer?: { kind: string; choice?: string; text?: string; value?: number };
  givenAt?: string;
  purpose?: string;
  stage?: string;
  how?: string;
  waitedMinutes?: number;
  outcome?: { figures: Record<string, { value: number }>; lost: string[]; unsafe: string[] };
}

interface Batch {
  file: string;
  events: (Event & { at: string })[];
}

function batchesIn(journals: Journals): Batch[] {
  return journals.map(({ file, lines }) => ({
    file,
    events: lines.map((line) => {
      const { at, event } = JSON.parse(line) as { at: string; event: Event };
      return { ...event, at };
    }),
  }));
}

const isAnswer = ({ type }: Event) => type === 'AnswerGiven' || type === 'AnswerChanged';
const wordOf = ({ answer }: Event) => answer?.choice ?? answer?.text;

/**
 * The answers that were not taken back, each with what the rules said to it; first, what they said before any answer.
 * A stop bars the way back: the question that is answered next tells how far it went.
 */
function standing({ events }: Batch): Event[][] {
  const past: Event[][] = [[]];
  let backs = 0;
  for (const event of events) {
    if (event.type === 'AnswerWithdrawn') backs += 1;
    else if (event.outcome) past.at(-1)?.push(event);
    if (!isAnswer(event)) continue;
    const isSame = ([given]: Event[]) => given?.question === event.question;
    const from = past.findIndex((one, index) => index >= past.length - backs && isSame(one));
    const to = event.type === 'AnswerChanged' ? past.findLastIndex(isSame) : from;
    if (to > 0) past.length = to;
    past.push([event]);
    backs = 0;
  }
  const stopped = events.findLast(({ outcome }) => outcome)?.outcome?.unsafe.length;
  return stopped ? past : past.slice(0, Math.max(1, past.length - backs));
}

function lastWord(batch: Batch, question: string): string | undefined {
  const last = standing(batch)
    .flat()
    .findLast((event) => isAnswer(event) && event.question === question);
  return last && wordOf(last);
}

function lastFigure(batch: Batch, fact: string): number | undefined {
  const last = standing(batch)
    .flat()
    .findLast(
      ({ type, outcome }) =>
        type === 'RulesEvaluated' && outcome && (fact in outcome.figures || outcome.lost.includes(fact)),
    );
  return last?.outcome?.figures[fact]?.value;
}

function grouped(pairs: readonly [string, number][]): [string, number[]][] {
  const groups = new Map<string, number[]>();
  for (const [key, value] of pairs) groups.set(key, [...(groups.get(key) ?? []), value]);
  return [...groups].sort(([one], [other]) => (one < other ? -1 : 1));
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const most = (one: Row, other: Row) => Number(other[1]) - Number(one[1]);

function means(batches: readonly Batch[], keyOf: (batch: Batch) => string | undefined, fact: string): Row[] {
  const pairs = batches.flatMap((batch): [string, number][] => {
    const [key, value] = [keyOf(batch), lastFigure(batch, fact)];
    return key === undefined || value === undefined ? [] : [[key, value]];
  });
  return grouped(pairs).map(([key, values]) => [key, values.length, sum(values) / values.length]);
}

function cutShort(batches: readonly Batch[]): Row[] {
  const rows = batches.flatMap(({ file, events }) =>
    events.flatMap((event, index): Row[] =>
      event.type === 'WaitEnded' && event.how === 'early'
        ? [[file, event.waitedMinutes, events[index + 1]?.question]]
        : [],
    ),
  );
  return rows
    .sort((one, other) => most(one, other) || (String(one[0]) < String(other[0]) ? -1 : 1))
    .slice(0, 20);
}

function afterSecondStage({ events }: Batch): [string, number][] {
  const from = events.findIndex(({ stage }) => stage === 'second-stage');
  return from < 0
    ? []
    : events.slice(from + 1).flatMap((event): [string, number][] => {
        const counts = isAnswer(event) && event.question === 'conv-test' && event.givenAt === undefined;
        return counts ? [[wordOf(event) ?? '', 1]] : [];
      });
}

function chargeToDraw({ file, events }: Batch): Row[] {
  const given = (question: string) =>
    events.findIndex((one) => one.type === 'AnswerGiven' && one.question === question);
  const [charge, draw] = [given('charge-minutes'), given('interface-draw')];
  const [from, to] = [events[charge], events[draw]];
  return from && to && draw > charge ? [[file, (Date.parse(to.at) - Date.parse(from.at)) / 60_000]] : [];
}

function notSure(batches: readonly Batch[]): Row[] {
  const pairs = batches.flatMap((batch) => {
    const asked = batch.events.filter(
      ({ type, answer, givenAt }) =>
        type === 'AnswerGiven' && answer?.kind === 'not-sure' && givenAt === undefined,
    );
    return asked.map((): [string, number] => [lastWord(batch, 'maker') ?? '', 1]);
  });
  return grouped(pairs)
    .map(([maker, ones]): Row => [maker, ones.length])
    .sort(most);
}

const stopsIn = ({ events }: Batch) => [...new Set(events.flatMap(({ outcome }) => outcome?.unsafe ?? []))];

/** By heading of the page. */
export const counts: Record<string, (journals: Journals) => Row[]> = {
  'How many batches were begun in each month?': (journals) =>
    grouped(
      batchesIn(journals).flatMap(({ events }) =>
        events
          .filter(({ type, purpose }) => type === 'BatchOpened' && purpose === undefined)
          .map(({ at }): [string, number] => [at.slice(0, 7), 1]),
      ),
    ).map(([month, ones]) => [month, ones.length]),
  'How sour is the oil of each supplier?': (journals) =>
    means(
      batchesIn(journals),
      (batch) => {
        const oil = lastWord(batch, 'oil-id');
        return oil === undefined ? undefined : oil.split(',')[1]?.trim() || 'not said';
      },
      'titrant-koh-equivalent',
    ),
  'Does oil still drop out after a second stage?': (journals) =>
    grouped(batchesIn(journals).flatMap(afterSecondStage)).map(([word, ones]) => [word, ones.length]),
  'Which stops hold batches up?': (journals) =>
    grouped(batchesIn(journals).flatMap((batch) => stopsIn(batch).map((stop): [string, number] => [stop, 1])))
      .map(([stop, ones]): Row => [stop, ones.length])
      .sort(most),
  'Which waits are cut short?': (journals) => cutShort(batchesIn(journals)),
  'What does each kind of oil yield?': (journals) =>
    means(batchesIn(journals), (batch) => lastWord(batch, 'feed-source'), 'yield'),
  'Who needs help most?': (journals) => notSure(batchesIn(journals)),
  'How long from the charge to the draw?': (journals) =>
    batchesIn(journals)
      .flatMap(chargeToDraw)
      .sort((one, other) => (String(one[0]) < String(other[0]) ? -1 : 1)),
};
