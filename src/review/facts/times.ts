import type { Book } from '../../rulebook/book.ts';
import { timeOf } from '../given.ts';
import { answersTo, numberOf } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, Story } from '../story.ts';
import { isSameVisit } from '../visits.ts';

const minute = 60_000;

/** How long something was said to take, and the answer that must have come before it began. */
const spans: { claim: string; from: string; unit: number }[] = [
  { claim: 'methoxide-minutes', from: 'charge-order', unit: minute },
  { claim: 'mix-time', from: 'methoxide-delivered', unit: minute },
  { claim: 'second-stage-mix-time', from: 'second-dose-in', unit: minute },
  { claim: 'drying-hours', from: 'heat-behaviour', unit: 60 * minute },
  { claim: 'settle-hours', from: 'settle-vent', unit: 60 * minute },
  { claim: 'flash-hours', from: 'fuel-start-temperature', unit: 60 * minute },
  { claim: 'flash-settle-hours', from: 'methanol-left-again', unit: 60 * minute },
  { claim: 'dry-hours', from: 'dry-drain', unit: 60 * minute },
];

/** A clock read in passing is forgiven: half as much again, and a quarter of an hour. */
const forgiven = { factor: 1.5, more: 15 * minute };

const saysLate = /\b(late|later|afterwards|from (the |my )?(paper|note|memory)|wrote (it|this) down)\b/i;

/** A late entry that says so is an honest one. */
function isOwnedUp(story: Story, told: AnswerTold): boolean {
  return story.notes.some((note) => saysLate.test(note.text) && isSameVisit(note, told));
}

/** The spans that the log has no room for. The first beginning is taken: it gives the most room. */
function tooLong(story: Story): { told: AnswerTold; claimed: number; passed: number }[] {
  return spans.flatMap(({ claim, from, unit }) =>
    answersTo(story, [claim]).flatMap((told) => {
      const value = numberOf(told.answer);
      const begun = answersTo(story, [from]).find(({ record }) => record < told.record);
      if (value === undefined || !begun) return [];
      const [claimed, passed] = [value * unit, Math.max(0, timeOf(told) - timeOf(begun))];
      const fits = claimed <= passed * forgiven.factor + forgiven.more;
      return fits || isOwnedUp(story, told) ? [] : [{ told, claimed, passed }];
    }),
  );
}

function inMinutes(milliseconds: number): string {
  const minutes = Math.round(milliseconds / minute);
  return minutes < 180 ? `${minutes} min` : `${Math.round(minutes / 60)} h`;
}

function nameOf(book: Book, question: string): string {
  const { short, ask } = book.questions[question] ?? {};
  return (short ?? ask ?? question).replace(/[?.]$/, '');
}

/** Records are written one after another: an earlier time in a later record means that a clock was set. */
function goesBack(story: Story): AnswerTold | undefined {
  const told = story.answers;
  return told.find(
    (one, index) => index > 0 && Date.parse(one.at) < Date.parse(told[index - 1]?.at ?? one.at) - minute,
  );
}

export const timeFacts: ReviewFacts = {
  'times-wrong': {
    about:
      'A later record bears an earlier time, or something was said to last far longer than the log has room for.',
    of: (story) => {
      if (story.answers.length < 2) return undefined;
      return goesBack(story) !== undefined || tooLong(story).length > 0;
    },
  },
  'times-wrong-where': {
    about: 'The times that do not fit, in words.',
    of: (story, book) => {
      const back = goesBack(story);
      const lines = tooLong(story).map(
        ({ told, claimed, passed }) =>
          `${nameOf(book, told.question)}: ${inMinutes(claimed)} said, ${inMinutes(passed)} in the log`,
      );
      if (back) lines.unshift(`${nameOf(book, back.question)}: written before the answer above it`);
      return lines.length > 0 ? lines.join('; ') : undefined;
    },
  },
};
