import { verdictWords } from '../review/review-questions.ts';
import { hazardOf } from '../rulebook/book.ts';
import { factEntry, type Told } from './naming.ts';
import type { Entry, Section } from './section.ts';
import { minutesBetween, showLength, showTime } from './show-time.ts';
import { signOff } from './sign-off.ts';

/** What a reader wants first, in this order; those that the batch never came to are left out. */
const wanted: readonly (readonly [fact: string, item: string])[] = [
  ['maker', 'Made by'],
  ['oil-id', 'Oil'],
  ['oil-volume-20c', 'Oil in the recipe, at 20 °C'],
  ['ffa', 'Free fatty acid of the oil'],
  ['water-ppm', 'Water in the oil, at most'],
  ['alkali-kind', 'Alkali'],
  ['alkali-total', 'Alkali given in all, as bought'],
  ['methanol-total', 'Methanol given in all'],
  ['fuel-litres-20c', 'Finished fuel, at 20 °C'],
  ['yield', 'Yield'],
  ['glycerin-litres', 'Glycerin drawn'],
  ['balance-gap', 'Gap in the mass balance'],
  ['use', 'Meant for'],
  ['lab-sheet', 'Laboratory sheet'],
];

export const glanceFacts: readonly string[] = wanted.map(([fact]) => fact);

const endings = {
  finished: 'finished: the batch is closed',
  rejected: 'rejected: the oil or the fuel was given up',
  abandoned: 'given up by the maker',
};

function dates({ story }: Told): Entry[] {
  const length = showLength(minutesBetween(story.opened, story.last));
  return [
    { item: 'Begun', value: `${showTime(story.opened)} UTC`, at: story.opened, record: 1 },
    {
      item: 'Last record',
      value: `${showTime(story.last)} UTC, ${length} later`,
      at: story.last,
      record: story.records,
    },
    { item: 'Times the log was opened', value: String(story.sessions.length) },
  ];
}

function outcome({ book, story }: Told): Entry {
  const { ended, stage } = story.state;
  const at = book.stages.find((one) => one.stage === stage)?.title ?? stage;
  const open =
    story.purpose === 'trouble'
      ? 'opened only to find out what went wrong'
      : `not finished; it stands at "${at}"`;
  return { item: 'How it ended', value: ended ? endings[ended] : open };
}

function holding({ book, story }: Told): Entry {
  const { held } = story.state;
  const names = held.map(({ stop }) => `${stop}, ${hazardOf(book, stop).name.replaceAll('-', ' ')}`);
  const still = names.length > 0 ? `; STILL HOLDING: ${names.join('; ')}` : '';
  const count = story.stops.filter(({ again }) => !again).length;
  return {
    item: 'Stops',
    value: count === 0 ? 'none held' : `${count} held, ${count - held.length} cleared${still}`,
  };
}

function reviewed({ story }: Told): Entry {
  const signed = signOff(story);
  const value = signed
    ? `${verdictWords[signed.event.verdict]} (signed by ${signed.event.mentor})`
    : 'not signed by a mentor';
  return { item: 'Review', value, ...(signed ? { record: signed.record, at: signed.at } : {}) };
}

export function glance(told: Told): Section {
  const known = wanted.flatMap(([fact, item]) => factEntry(told, fact, item) ?? []);
  const entries = [
    { item: 'Batch', value: told.story.batch, record: 1 },
    ...known.filter(({ item }) => item === 'Made by'),
    ...dates(told),
    outcome(told),
    ...known.filter(({ item }) => item !== 'Made by'),
    holding(told),
    reviewed(told),
  ];
  return {
    id: 'glance',
    title: 'The batch at a glance',
    caption: 'The batch in a few lines',
    columns: [
      { field: 'item', head: 'What' },
      { field: 'value', head: 'Value' },
      { field: 'record', head: 'Record' },
    ],
    entries,
    none: '',
  };
}
