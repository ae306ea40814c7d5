import type { Answer } from '../conversation/events.ts';
import { answerInWords, fill } from '../conversation/wording.ts';
import { bothSystems } from '../quantity/show.ts';
import { givenByMaker } from '../review/given.ts';
import type { AnswerTold, InVisit, Place, Story } from '../review/story.ts';
import { visitsOf } from '../review/visits.ts';
import type { Book } from '../rulebook/book.ts';
import type { Figure } from '../rulebook/evaluation.ts';
import { nameOfFact } from '../rulebook/explain.ts';
import type { SourceRef } from '../rulebook/rule-schema.ts';
import { rowNames } from './row-names.ts';
import type { Entry, Measured } from './section.ts';

/** What every part of a report is made from. */
export interface Told {
  /** The rules of the story: all that its log names is in them. */
  book: Book;
  story: Story;
}

/** A fact as the head of a row: "Density at 15 °C", not a question. */
export function rowName({ book, story }: Told, fact: string): string {
  const own = rowNames[fact];
  if (own) return own;
  const name = fill(book, story.state, nameOfFact(book, fact)).replace(/\?$/, '');
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/** A question in the words it was asked. */
export function askedIn({ book, story }: Told, question: string): string {
  return fill(book, story.state, book.questions[question]?.ask ?? question);
}

export function answered({ book }: Told, question: string, answer: Answer): string {
  const asked = book.questions[question];
  return asked ? answerInWords(asked, answer) : '';
}

/** A stage as a heading, with the visit of it where there are several, or where that visit does not count any more. */
export function visitTitle(
  { book, story }: Told,
  { stage, visit }: Pick<InVisit, 'stage' | 'visit'>,
): string {
  const title = book.stages.find((one) => one.stage === stage)?.title ?? stage;
  const visits = visitsOf(story, stage).length;
  if (visit > visits) return `${title}, undone by a change`;
  return visits > 1 ? `${title}, visit ${visit} of ${visits}` : title;
}

export function measuredIn(answer: Answer): Measured | undefined {
  if (answer.kind !== 'quantity') return undefined;
  const { value, unit, plusMinus } = answer;
  return { value, unit, plusMinus };
}

export function figureInWords({ value, unit, plusMinus }: Figure): string {
  return bothSystems(value, unit, { plusMinus });
}

export function placeOf({ record, at }: Place): Pick<Entry, 'record' | 'at'> {
  return { record, at };
}

export function sourceIds(source: SourceRef): string[] {
  return [typeof source === 'string' ? source : source.id];
}

/** The answer to a question that counts at the end, where there is one. */
export function standing({ story }: Told, question: string): AnswerTold | undefined {
  return givenByMaker(story).findLast((one) => one.question === question && one.stands);
}

export function answerEntry(told: Told, question: string, item?: string): Entry | undefined {
  const given = standing(told, question);
  if (!given) return undefined;
  const measured = measuredIn(given.answer);
  return {
    item: item ?? rowName(told, question),
    value: answered(told, question, given.answer),
    ...(measured ? { measured } : {}),
    ...placeOf(given),
  };
}

/** A figure as it stood at the end; the record is the one that brought its last value. */
export function figureEntry(told: Told, fact: string, item?: string): Entry | undefined {
  const figure = told.story.state.figures[fact];
  if (!figure) return undefined;
  const { value, unit, plusMinus } = figure;
  const last = told.story.figures.findLast((one) => one.fact === fact);
  return {
    item: item ?? rowName(told, fact),
    value: figureInWords(figure),
    measured: { value, unit, plusMinus },
    ...(last ? placeOf(last) : {}),
  };
}

/** An answer or a figure, whichever the fact is. */
export function factEntry(told: Told, fact: string, item?: string): Entry | undefined {
  return fact in told.book.questions ? answerEntry(told, fact, item) : figureEntry(told, fact, item);
}
