import { countedAnswers, timeOf } from '../given.ts';
import { answersTo } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, Story } from '../story.ts';

/** Readings of a liquid that is being heated, held warm or cooling: not of the weather, and not of a goal. */
const warmReadings = [
  'settle-temperature',
  'oil-temperature',
  'cooling-check',
  'oil-volume-temperature',
  'sample-temperature',
  'pretreat-temperature',
  'oil-before-charge',
  'rxn-temp',
  'rxn-temp-end',
  'settling-temperature',
  'fuel-temperature',
  'flash-cooling',
  'wash-temperature',
  'dry-temperature',
];

/** Closer together than this, in minutes, two readings are one look at the thermometer. */
const oneLook = 5;
const copies = 3;

function typedValue({ answer }: AnswerTold): string {
  if (answer.kind !== 'quantity') return '';
  return `${answer.typed?.value ?? answer.value} ${answer.typed?.unit ?? answer.unit}`;
}

const isReading = ({ answer }: AnswerTold) => answer.kind === 'quantity';

function sameTemperatures(story: Story): AnswerTold[] {
  let row: AnswerTold[] = [];
  for (const reading of answersTo(story, warmReadings).filter(isReading)) {
    const last = row.at(-1);
    const anotherLook = !last || timeOf(reading) - timeOf(last) >= oneLook * 60_000;
    if (last && typedValue(last) === typedValue(reading) && anotherLook) row.push(reading);
    else if (anotherLook) row = [reading];
    if (row.length >= copies) return row;
  }
  return [];
}

/** The three readings of each time that the oil was titrated. */
function titrations(story: Story): AnswerTold[][] {
  const rounds: AnswerTold[][] = [];
  for (const told of countedAnswers(story).filter(isReading)) {
    if (told.question === 'titrant-1') rounds.push([told]);
    else if (told.question === 'titrant-2' || told.question === 'titrant-3') rounds.at(-1)?.push(told);
  }
  return rounds.filter((round) => round.length === copies);
}

function sameTitrations(story: Story): AnswerTold[] {
  const seen = new Map<string, AnswerTold[]>();
  for (const round of titrations(story)) {
    const values = round.map(typedValue).join('; ');
    const earlier = seen.get(values);
    if (earlier && round[0] && earlier[0] && timeOf(round[0]) - timeOf(earlier[0]) >= oneLook * 60_000)
      return [...earlier, ...round];
    seen.set(values, round);
  }
  return [];
}

const asTyped = (told: readonly AnswerTold[]) => told.map(({ text }) => text).join(', ');

export const copiedFacts: ReviewFacts = {
  'readings-repeated': {
    about:
      'Three temperatures in a row, or two whole titrations, are the same to the last digit at different times.',
    of: (story) => {
      const looked = answersTo(story, warmReadings).filter(isReading).length;
      if (looked < copies && titrations(story).length === 0) return undefined;
      return sameTemperatures(story).length > 0 || sameTitrations(story).length > 0;
    },
  },
  'repeated-values': {
    about: 'The readings that repeat, as they were typed.',
    of: (story) => {
      const found = [...sameTemperatures(story), ...sameTitrations(story)];
      return found.length > 0 ? asTyped(found) : undefined;
    },
  },
};
