import { fill } from '../conversation/wording.ts';
import { keptByMaker } from '../review/given.ts';
import type { AnswerTold } from '../review/story.ts';
import { visitOf } from '../review/visits.ts';
import { factsOf } from '../rulebook/condition.ts';
import { adviceKey } from '../rulebook/rule-keys.ts';
import { answered, askedIn, placeOf, sourceIds, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';

/** Tests that are looked at, listened to or smelled; they have no number. */
export const looks: readonly string[] = [
  'water-test',
  'conv-test',
  'conv-settled',
  'cold-jar',
  'fuel-water',
  'filter-outlet',
  'appearance',
  'haze-warmed',
  'fuel-smell',
  'finished-conversion',
  'finished-pan',
  'finished-jar',
];

/**
 * What a rule says to this answer that looks at it and still held when the rules of the visit were looked at last. Of
 * several the first one counts: the rules of one test stand before those that sum up many.
 */
function wordOf({ book, story }: Told, told: AnswerTold): Pick<Entry, 'says' | 'sources'> {
  const { question, stage } = told;
  const rules = book.stages.find((one) => one.stage === stage)?.advice ?? [];
  const holding = visitOf(story, told)?.holding ?? [];
  const rule = rules.find(
    ({ id, when }) =>
      holding.includes(adviceKey(id)) &&
      factsOf(when).some((fact) => fact === question || fact === `status.${question}`),
  );
  if (!rule) return {};
  const signal = rule.signal ? `${rule.signal}: ` : '';
  return { says: signal + fill(book, story.state, rule.say), sources: sourceIds(rule.source) };
}

export function lookSection(told: Told): Section {
  const kept = keptByMaker(told.story);
  const last = (answer: AnswerTold) =>
    kept.findLast(({ question, stage }) => question === answer.question && stage === answer.stage) === answer;
  return {
    id: 'looks',
    title: 'Looks, jars and pans',
    caption: 'Tests without a number, and what the rules say to them',
    columns: [
      { field: 'item', head: 'Test' },
      { field: 'value', head: 'Seen' },
      { field: 'says', head: 'What the rules say to it' },
      { field: 'sources', head: 'Source' },
      ...whenColumns,
    ],
    entries: kept
      .filter((one) => looks.includes(one.question) && last(one))
      .map((one) => ({
        item: askedIn(told, one.question),
        value: answered(told, one.question, one.answer),
        ...wordOf(told, one),
        ...placeOf(one),
      })),
    none: 'No such test was made.',
  };
}
