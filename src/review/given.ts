import type { Book } from '../rulebook/book.ts';
import type { Plain } from '../rulebook/condition.ts';
import { answersTo, plainIn } from './log-reading.ts';
import type { AnswerTold, Story } from './story.ts';

/** Every answer that the maker did not take back or put right, in the order of the log. */
export function countedAnswers(story: Story): AnswerTold[] {
  return story.answers.filter((told) => !told.takenBack);
}

/** The answers that the maker typed, without those that the program gave again: the first one stands for them. */
export function givenByMaker({ answers }: Story): AnswerTold[] {
  return answers.filter(({ again }) => again === undefined);
}

/** The record of the answer that the maker typed first in this place, however often it was put right since. */
export function firstRecord({ answers }: Story, { record, again }: AnswerTold): number {
  const rightedBy = (one: number) => answers.find((told) => told.record === one)?.putsRight;
  let first = again ?? record;
  for (let next = rightedBy(first); next !== undefined; next = rightedBy(first)) first = next;
  return first;
}

/** The answers that the maker typed and that were not taken back for good; one put right in the place of the first. */
export function keptByMaker(story: Story): AnswerTold[] {
  const records = new Set(countedAnswers(story).map(({ again, record }) => again ?? record));
  const kept = givenByMaker(story).filter(({ record }) => records.has(record));
  const first = new Map(kept.map((told) => [told, firstRecord(story, told)]));
  return kept.sort((one, other) => (first.get(one) ?? 0) - (first.get(other) ?? 0));
}

export function lastGiven(story: Story, question: string): AnswerTold | undefined {
  return answersTo(story, [question]).at(-1);
}

/** What was answered last, whatever was asked anew since; nothing where the maker did not know. */
export function lastSaid(story: Story, question: string): Plain | undefined {
  return plainIn(lastGiven(story, question)?.answer);
}

/**
 * What was said to a question last before something else was answered. Where the stage asks it itself, an answer
 * from another stage does not count.
 */
export function toldBefore(
  story: Story,
  book: Book,
  question: string,
  then: AnswerTold,
): AnswerTold | undefined {
  const asked = book.stages.some(({ stage, asks }) => stage === then.stage && asks.includes(question));
  return answersTo(story, [question]).findLast(
    ({ record, stage }) => record < then.record && (!asked || stage === then.stage),
  );
}

export function saidBefore(story: Story, book: Book, question: string, then: AnswerTold): Plain | undefined {
  return plainIn(toldBefore(story, book, question, then)?.answer);
}

export const timeOf = ({ at, givenAt }: AnswerTold): number => Date.parse(givenAt ?? at);

const saysNothing = /^(\W*|none|no|nil|nothing|unknown|not known|n\/?a|don'?t know|no idea)$/i;

/** Free text that says something: not "none", a dash or a question mark. */
export function saysSomething(text: Plain | undefined): text is string {
  return typeof text === 'string' && !saysNothing.test(text.trim());
}
