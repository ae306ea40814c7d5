import { factTable } from '../../conversation/facts.ts';
import type { Given } from '../../conversation/state.ts';
import { type Book, hazardOf, hazardsAt } from '../../rulebook/book.ts';
import { comparable } from '../../rulebook/comparable.ts';
import { rootsOfCondition } from '../../rulebook/roots.ts';
import { judge } from '../../rulebook/three-valued.ts';
import { countedAnswers, saidBefore } from '../given.ts';
import { answersTo, plainIn } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, StopTold, Story } from '../story.ts';

/** From these answers on, methanol, alkali or acid is open. */
const opening = ['methanol-measured', 'charge-order', 'second-mix-order', 'pretreat-methanol', 'acid-order'];

/** What has to be confirmed before that, with the answers that do. */
const guards = [
  { question: 'ppe', safe: ['all-on'], name: 'protection' },
  { question: 'water-ready', safe: ['running'], name: 'running water' },
  { question: 'grounding', safe: ['bonded', 'plastic-only'], name: 'bonding' },
];

function unguarded(story: Story, book: Book): string[] {
  const missing = answersTo(story, opening).flatMap((open) =>
    guards.filter(({ question, safe }) => !safe.includes(String(saidBefore(story, book, question, open)))),
  );
  return [...new Set(missing.map(({ name }) => name))];
}

const isDanger =
  (book: Book) =>
  ({ stop }: { stop: string }) =>
    hazardOf(book, stop).signal === 'DANGER';

/** Of a stop that the rules no longer have nobody knows what clears it: nothing is said against how it was cleared. */
const isKnown = (book: Book, stop: string): boolean => hazardOf(book, stop).clear.ask.length > 0;

/** Nothing but the questions of the stops that hold, and of a new alarm, may be answered while one holds. */
function wentPast(story: Story, book: Book): string[] {
  return story.state.past.flatMap(({ before, question }) => {
    if (!before.held.every(({ stop }) => isKnown(book, stop))) return [];
    const allowed = before.held.flatMap(({ stop }) => hazardOf(book, stop).clear.ask);
    if (question === 'alarm' || allowed.includes(question)) return [];
    return before.held.filter(isDanger(book)).map(({ stop }) => stop);
  });
}

/** Cleared, and yet none of its own questions has a known answer from the time in which it held. */
function clearedOnNothing(story: Story, book: Book, { stop, record, cleared }: StopTold): boolean {
  if (!isKnown(book, stop)) return false;
  if (!cleared) return story.state.ended === 'finished';
  const asks = hazardOf(book, stop).clear.ask;
  // An answer that a later change gave again was there when it cleared the stop.
  const isThere = ({ takenBack }: AnswerTold) => !takenBack || takenBack.record > cleared.record;
  const answers = story.answers.filter((told) => asks.includes(told.question) && isThere(told));
  return !answers.some(
    (told) => told.record > record && told.record <= cleared.record && plainIn(told.answer) !== undefined,
  );
}

function passedOver(story: Story, book: Book): string[] {
  const empty = story.stops.filter(isDanger(book)).filter((told) => clearedOnNothing(story, book, told));
  return [...new Set([...wentPast(story, book), ...empty.map(({ stop }) => stop)])];
}

/** The stops, but for those of the least danger, that rest on a "not sure" and did not hold the batch after it. */
function tookAsYes(
  story: Story,
  book: Book,
  given: Given,
  told: AnswerTold,
  next: AnswerTold | undefined,
): string[] {
  const { before, question } = given;
  const answered = { answer: told.answer, status: 'not-sure' as const, at: told.at, turn: before.turn + 1 };
  const now = { ...before, answers: { ...before.answers, [question]: answered } };
  const known = comparable(book, factTable(now), before.figures);
  return hazardsAt(book, before.stage)
    .filter(({ signal }) => signal !== 'CAUTION' && signal !== 'NOTICE')
    .filter((hazard) => rootsOfCondition(book, hazard['safe-when']).includes(question))
    .filter((hazard) => judge(hazard['safe-when'], known) !== 'true')
    .map(({ id }) => id)
    .filter((id) => {
      const until = next?.record ?? Number.POSITIVE_INFINITY;
      const began = story.stops.some(
        ({ stop, record }) => stop === id && record > told.record && record < until,
      );
      return !began && !before.held.some(({ stop }) => stop === id);
    });
}

/** What passed for safe on a "not sure". The last answer of a log has not been looked at yet. */
function notSurePassed(story: Story, book: Book): string[] {
  const counted = countedAnswers(story);
  return counted.slice(0, -1).flatMap((told, index) => {
    if (told.answer.kind !== 'not-sure') return [];
    const at = told.givenAt ?? told.at;
    const given = story.state.past.find((one) => one.question === told.question && one.at === at);
    return given ? tookAsYes(story, book, given, told, counted[index + 1]) : [];
  });
}

const inWords = (book: Book, stops: readonly string[]): string | undefined =>
  stops.length > 0
    ? stops.map((stop) => hazardOf(book, stop).name.replaceAll('-', ' ')).join(', ')
    : undefined;

export const stopFacts: ReviewFacts = {
  'methoxide-unguarded': {
    about: 'Methanol, alkali or acid was open before protection, running water and bonding were confirmed.',
    of: (story, book) =>
      answersTo(story, opening).length > 0 ? unguarded(story, book).length > 0 : undefined,
  },
  'methoxide-guards-missing': {
    about: 'What of protection, running water and bonding was not confirmed.',
    of: (story, book) => unguarded(story, book).join(', ') || undefined,
  },
  'danger-passed-over': {
    about:
      'The talk went on past a DANGER stop, or one was cleared with no known answer to its own questions.',
    of: (story, book) => (story.stops.some(isDanger(book)) ? passedOver(story, book).length > 0 : undefined),
  },
  'danger-passed-over-names': {
    about: 'The DANGER stops that were passed over.',
    of: (story, book) => inWords(book, passedOver(story, book)),
  },
  'not-sure-passed': {
    about: 'A "not sure" to something that a safety stop rests on did not stop the batch.',
    of: (story, book) => {
      const doubts = countedAnswers(story).some(({ answer }) => answer.kind === 'not-sure');
      return doubts ? notSurePassed(story, book).length > 0 : undefined;
    },
  },
  'not-sure-passed-names': {
    about: 'The safety stops that a "not sure" did not set off.',
    of: (story, book) => inWords(book, [...new Set(notSurePassed(story, book))]),
  },
};
