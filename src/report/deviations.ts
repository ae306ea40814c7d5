import { givenByMaker } from '../review/given.ts';
import type { AdviceTold, AnswerTold } from '../review/story.ts';
import { visitOf } from '../review/visits.ts';
import type { Book } from '../rulebook/book.ts';
import { leavesOf } from '../rulebook/condition.ts';
import { rootsOfCondition } from '../rulebook/roots.ts';
import { adviceKey } from '../rulebook/rule-keys.ts';
import type { Advice } from '../rulebook/rule-schema.ts';
import { answered, askedIn, placeOf, type Told } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';
import { showLength } from './show-time.ts';

const isOpen = ({ answer }: AnswerTold) => answer.kind === 'not-sure' || answer.kind === 'skipped';

function shortWaits(told: Told): Entry[] {
  return told.story.waits
    .filter(({ how }) => how === 'early')
    .map((wait) => ({
      group: 'Waits cut short',
      item: askedIn(told, wait.question),
      value: `${showLength(wait.waited ?? 0)} of ${showLength(wait.minutes)}`,
      ...placeOf(wait),
    }));
}

function changedAnswers(told: Told): Entry[] {
  const { answers, changes } = told.story;
  return changes.map((change) => {
    const before = answers.find(({ record }) => record === change.was);
    const after = answers.find(({ record }) => record === change.record);
    const was = before
      ? `${answered(told, change.question, before.answer)} (record ${before.record})`
      : 'another answer';
    return {
      group: 'Answers put right',
      item: askedIn(told, change.question),
      value: after ? answered(told, change.question, after.answer) : 'changed',
      says: `It was: ${was}. The first answer stays in the log.`,
      ...placeOf(change),
    };
  });
}

function takenBack(told: Told): Entry[] {
  const { answers, takenBack: back } = told.story;
  return back.map((one) => {
    const before = answers.find(({ record }) => record === one.was);
    const value = before ? answered(told, one.question, before.answer) : 'an answer';
    return { group: 'Answers taken back', item: askedIn(told, one.question), value, ...placeOf(one) };
  });
}

function openAnswers(told: Told): Entry[] {
  const given = givenByMaker(told.story);
  return given.filter(isOpen).map((one) => {
    const later = given.find(
      (other) => other.question === one.question && other.record > one.record && !isOpen(other),
    );
    return {
      group: 'Not sure, or left out',
      item: askedIn(told, one.question),
      value: answered(told, one.question, one.answer),
      says: later
        ? `Answered later: ${answered(told, one.question, later.answer)} (record ${later.record}).`
        : 'It stayed unknown. A stop takes that as unsafe.',
      ...placeOf(one),
    };
  });
}

function adviceIn(book: Book, { stage, id }: AdviceTold): Advice | undefined {
  return book.stages.find((one) => one.stage === stage)?.advice.find((one) => one.id === id);
}

/** Advice that asked anew for what it looks at; looking round once more before methanol is the usual way. */
function doneAgain(told: Told): Entry[] {
  const { book, story } = told;
  const asksForItsOwn = (spoken: AdviceTold) => {
    const advice = adviceIn(book, spoken);
    const roots = advice ? rootsOfCondition(book, advice.when) : [];
    return advice?.then?.['ask-again']?.some((question) => roots.includes(question)) === true;
  };
  return story.advice.filter(asksForItsOwn).map((advice) => ({
    group: 'Asked for again',
    item: advice.text,
    value: 'done again',
    ...placeOf(advice),
  }));
}

/** A rule that speaks because a value lies beyond a highest or lowest allowed one. */
function isOverALimit({ when }: Advice): boolean {
  return leavesOf(when).some(({ operator, value }) => {
    const other = typeof value === 'object' && !Array.isArray(value) ? value.fact : '';
    if (!other.startsWith('limit.')) return false;
    return other.endsWith('-max')
      ? operator.startsWith('greaterThan')
      : other.endsWith('-min') && operator.startsWith('lessThan');
  });
}

/** Whether a rule still held when its visit of the stage was left. */
function leftSo({ story }: Told, spoken: AdviceTold): boolean {
  const visit = visitOf(story, spoken);
  return visit?.left !== undefined && visit.holding?.includes(adviceKey(spoken.id)) === true;
}

/** Cautions about a value beyond its limit that was still beyond it when the work went on. */
function beyondLimits(told: Told): Entry[] {
  const { book, story } = told;
  const isLeft = (spoken: AdviceTold) => {
    const advice = adviceIn(book, spoken);
    return advice?.signal && advice.signal !== 'NOTICE' && isOverALimit(advice) && leftSo(told, spoken);
  };
  return story.advice.filter(isLeft).map((advice) => ({
    group: 'Beyond a limit when the stage was left',
    item: `${advice.signal}: ${advice.text}`,
    value: 'still so',
    ...placeOf(advice),
  }));
}

/** Where the batch left the straight way. Nothing here says that somebody was wrong. */
export function deviationSection(told: Told): Section {
  return {
    id: 'deviations',
    title: 'Where it left the straight way',
    caption: 'Waits cut short, answers put right or left open, and what had to be done again',
    columns: [
      { field: 'item', head: 'What' },
      { field: 'value', head: 'How' },
      { field: 'says', head: 'More' },
      ...whenColumns,
    ],
    entries: [
      ...beyondLimits(told),
      ...shortWaits(told),
      ...doneAgain(told),
      ...openAnswers(told),
      ...changedAnswers(told),
      ...takenBack(told),
    ],
    none: 'Every wait was kept, every question answered, and nothing was put right or done again.',
  };
}
