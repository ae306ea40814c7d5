import { fill } from '../conversation/wording.ts';
import type { AnswerTold } from '../review/story.ts';
import { factsOf } from '../rulebook/condition.ts';
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

/** The last words of a rule that looks at this answer, spoken after it in the same stage. */
function wordOf(
  { book, story }: Told,
  { question, stage, record }: AnswerTold,
): Pick<Entry, 'says' | 'sources'> {
  const rules = book.stages.find((one) => one.stage === stage)?.advice ?? [];
  const looking = rules.filter(({ when }) =>
    factsOf(when).some((fact) => fact === question || fact === `status.${question}`),
  );
  const holding =
    story.stages.findLast((visit) => visit.stage === stage && visit.record <= record)?.holding ?? [];
  const spoken = looking.filter(({ id }) => holding.includes(`advice:${id}`));
  const rule = spoken[0];
  if (!rule) return {};
  const signal = rule.signal ? `${rule.signal}: ` : '';
  return { says: signal + fill(book, story.state, rule.say), sources: sourceIds(rule.source) };
}

export function lookSection(told: Told): Section {
  const { story } = told;
  const last = (answer: AnswerTold) =>
    story.answers.findLast(
      ({ question, stage }) => question === answer.question && stage === answer.stage,
    ) === answer;
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
    entries: story.answers
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
