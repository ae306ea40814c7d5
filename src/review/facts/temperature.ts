import type { Book } from '../../rulebook/book.ts';
import { answersTo, figureOf, limitOf, numberOf, plainIn } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, Story } from '../story.ts';
import { visitsOf } from '../visits.ts';

/** Readings of the oil while it is heated and dried. */
const feedReadings = ['settle-temperature', 'oil-temperature', 'cooling-check'];
const drainLooks = ['drain-look', 'drain-second'];

function isTemperature(book: Book, question: string): boolean {
  const answer = book.questions[question]?.answer;
  return answer !== undefined && 'quantity' in answer && answer.quantity.unit === 'degC';
}

/** The air may be colder than any liquid of a batch; only what stands in a vessel or a jar is looked at. */
function temperatureOutside(story: Story, book: Book): number | undefined {
  const low = limitOf(book, 'log-temperature-min') ?? Number.NEGATIVE_INFINITY;
  const high = limitOf(book, 'oil-temperature-hard-max') ?? Number.POSITIVE_INFINITY;
  const questions = Object.keys(book.questions).filter(
    (id) => isTemperature(book, id) && id !== 'weather-temperature',
  );
  return answersTo(story, questions)
    .flatMap(({ answer }) => numberOf(answer) ?? [])
    .find((value) => value < low || value > high);
}

/** Feed readings made while the last pan test, if there was one, was anything but silent. */
function beforeDry(story: Story): AnswerTold[] {
  let dry = false;
  return answersTo(story, [...feedReadings, 'water-test']).filter((told) => {
    if (told.question !== 'water-test') return !dry;
    dry = plainIn(told.answer) === 'none';
    return false;
  });
}

function hottestBeforeDry(story: Story): number | undefined {
  const read = beforeDry(story).flatMap(({ answer }) => numberOf(answer) ?? []);
  return read.length === 0 ? undefined : Math.max(...read);
}

/** The clear drain looks in a row that came before a record, in the same visit of the stage. */
function clearLooksBefore(story: Story, record: number): number {
  const entered = visitsOf(story, 'dewater').findLast((one) => one.record <= record)?.record ?? 0;
  const looks = answersTo(story, drainLooks)
    .filter((told) => told.record > entered && told.record < record)
    .map(({ answer }) => plainIn(answer));
  return looks.length - 1 - looks.findLastIndex((look) => look !== 'clear-oil');
}

/** Oil that a pan test has shown dry lately needs no drain look. */
function clearDrainsBeforeHot(story: Story, book: Book): number | undefined {
  const limit = figureOf(story, 'wet-oil-limit') ?? limitOf(book, 'wet-oil-temperature-max');
  if (limit === undefined) return undefined;
  const hot = beforeDry(story).filter(({ answer }) => (numberOf(answer) ?? limit) > limit);
  return hot.length === 0 ? undefined : Math.min(...hot.map(({ record }) => clearLooksBefore(story, record)));
}

function isCharge({ question, answer }: AnswerTold): boolean {
  const value = plainIn(answer);
  if (question === 'methoxide-delivered') return value === 'all' || value === 'some-left';
  return question === 'second-dose-in' ? value === true : value !== undefined;
}

/** For every charge of methoxide, the last reading of the oil before it; nothing where there was none. */
function readingsAtCharge(story: Story): (number | undefined)[] {
  let reading: number | undefined;
  const found: (number | undefined)[] = [];
  const told = answersTo(story, [
    'oil-before-charge',
    'charge-minutes',
    'methoxide-delivered',
    'second-dose-in',
  ]);
  for (const one of told) {
    if (one.question === 'oil-before-charge') reading = numberOf(one.answer);
    else if (isCharge(one)) found.push(reading);
  }
  return found;
}

function hottestAtCharge(story: Story): number | undefined {
  const read = readingsAtCharge(story).flatMap((reading) => reading ?? []);
  return read.length === 0 ? undefined : Math.max(...read);
}

export const temperatureFacts: ReviewFacts = {
  'temperature-outside': {
    about: 'The first temperature of a liquid in the log that is colder or hotter than any batch can be.',
    unit: 'degC',
    of: temperatureOutside,
  },
  'hottest-before-dry': {
    about: 'The hottest reading of the feed oil from before a silent pan test.',
    unit: 'degC',
    of: hottestBeforeDry,
  },
  'clear-drains-before-hot': {
    about:
      'Clear drain looks in a row before oil, not yet tested dry, went over the limit for wet oil; the fewest, if more than once.',
    unit: '1',
    of: clearDrainsBeforeHot,
  },
  'charge-temperature': {
    about: 'The oil just before methoxide went in; the hottest, if it went in more than once.',
    unit: 'degC',
    of: hottestAtCharge,
  },
  'charged-unread': {
    about: 'Whether methoxide ever went in without a reading of the oil before it.',
    of: (story) => readingsAtCharge(story).includes(undefined),
  },
};
