import { givenByMaker } from '../review/given.ts';
import type { AnswerTold } from '../review/story.ts';
import { answered, askedIn, measuredIn, placeOf, type Told, visitTitle } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';
import { mentorAt, reviewEvents } from './sign-off.ts';

function remarks({ story }: Told, { record }: AnswerTold): string {
  const changed = story.changes.find(({ was }) => was === record);
  const back = story.takenBack.find(({ was }) => was === record);
  const comments = reviewEvents(story, 'CommentMade').filter(({ event }) => event.record === record);
  return [
    ...(changed ? [`Put right in record ${changed.record}.`] : []),
    ...(back ? [`Taken back in record ${back.record}.`] : []),
    ...comments.map((one) => `Comment by ${mentorAt(story, one.record)}: ${one.event.text}`),
  ].join(' ');
}

function answerRow(told: Told, one: AnswerTold): Entry {
  const measured = measuredIn(one.answer);
  const says = remarks(told, one);
  return {
    group: visitTitle(told, one),
    item: askedIn(told, one.question),
    value: answered(told, one.question, one.answer),
    ...(measured ? { measured } : {}),
    ...(says ? { says } : {}),
    ...placeOf(one),
  };
}

export function answerSection(told: Told): Section {
  return {
    id: 'answers',
    title: 'Every answer, by stage',
    caption: 'All answers in the order they were given',
    columns: [
      { field: 'item', head: 'Question' },
      { field: 'value', head: 'Answer' },
      { field: 'says', head: 'Remarks' },
      ...whenColumns,
    ],
    entries: givenByMaker(told.story).map((one) => answerRow(told, one)),
    none: 'No question was answered.',
  };
}
