import { fill } from '../conversation/wording.ts';
import type { StopTold } from '../review/story.ts';
import { hazardOf } from '../rulebook/book.ts';
import { answered, askedIn, placeOf, sourceIds, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';
import { minutesBetween, showLength, showTime } from './show-time.ts';

/** The answers that cleared a stop: those to its own questions while it held, the last to each. */
function clearing(told: Told, { stop, record, cleared }: StopTold): string {
  const { ask } = hazardOf(told.book, stop).clear;
  const until = cleared?.record ?? Number.POSITIVE_INFINITY;
  const given = ask.flatMap(
    (question) =>
      told.story.answers.findLast(
        (one) => one.question === question && one.record > record && one.record <= until,
      ) ?? [],
  );
  return given
    .map((one) => `${askedIn(told, one.question)} ${answered(told, one.question, one.answer)}.`)
    .join(' ');
}

function stopEntry(told: Told, stop: StopTold): Entry {
  const { book, story } = told;
  const { name, signal, say, stop: mustBe, source } = hazardOf(book, stop.stop);
  const { cleared } = stop;
  const by = clearing(told, stop);
  const verdict = cleared
    ? `cleared after ${showLength(minutesBetween(stop.at, cleared.at))}, record ${cleared.record}, ${showTime(cleared.at)} UTC`
    : 'STILL HOLDING when the log ends';
  return {
    item: `${signal}: ${stop.stop} ${name.replaceAll('-', ' ')}`,
    value: cleared ? 'cleared' : 'STILL HOLDING',
    says: fill(book, story.state, say),
    against: fill(book, story.state, mustBe),
    verdict: by ? `${verdict}. ${by}` : verdict,
    sources: sourceIds(source),
    ...placeOf(stop),
  };
}

export function stopSection(told: Told): Section {
  return {
    id: 'stops',
    title: 'Stops and what cleared them',
    caption: 'Stops that held the batch, what had to be true, and what cleared them',
    columns: [
      { field: 'item', head: 'Stop' },
      { field: 'says', head: 'What was said' },
      { field: 'against', head: 'What had to be true' },
      { field: 'verdict', head: 'What cleared it' },
      { field: 'sources', head: 'Source' },
      ...whenColumns,
    ],
    entries: told.story.stops.filter(({ again }) => !again).map((stop) => stopEntry(told, stop)),
    none: 'No stop held this batch.',
  };
}
