import type { AnswerTold, Place } from '../review/story.ts';
import { answered, askedIn, measuredIn, placeOf, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';
import { mentorAt, reviewEvents } from './sign-off.ts';

/** Answers given again by the program after an earlier one was put right say nothing new: the first one stands for them. */
export function givenByMaker({ answers }: Told['story']): AnswerTold[] {
  const isRepeat = (one: AnswerTold) =>
    one.givenAt !== undefined &&
    answers.some(
      ({ question, at, record }) => question === one.question && at === one.givenAt && record < one.record,
    );
  return answers.filter((one) => !isRepeat(one));
}

/** The heading over an answer: its stage, and which visit of it where there are several. */
function visitOf({ book, story }: Told, { stage, record }: AnswerTold): string {
  const title = book.stages.find((one) => one.stage === stage)?.title ?? stage;
  const visits = story.stages.filter((one) => one.stage === stage);
  const count = visits.filter((one) => one.record <= record).length;
  return visits.length > 1 && count > 0 ? `${title}, visit ${count} of ${visits.length}` : title;
}

function remarks({ story }: Told, { question, record }: AnswerTold): string {
  // The answer of a change or of a going back is the one given last before it.
  const isLastBefore = (later: Place) =>
    !story.answers.some(
      (one) => one.question === question && one.record > record && one.record < later.record,
    );
  const concerns = (one: Place & { question: string }) =>
    one.question === question && one.record > record && isLastBefore(one);
  const changed = story.changes.find(concerns);
  const back = story.takenBack.find(concerns);
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
    group: visitOf(told, one),
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
