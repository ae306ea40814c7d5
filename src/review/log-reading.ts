import type { Answer } from '../conversation/events.ts';
import { factOf } from '../conversation/facts.ts';
import type { Book } from '../rulebook/book.ts';
import type { Plain } from '../rulebook/condition.ts';
import { plainOf } from '../rulebook/evaluation.ts';
import type { AnswerTold, Story } from './story.ts';

/** The bare value of an answer, in the unit of its question; nothing where the maker did not know. */
export function plainIn(answer: Answer | undefined): Plain | undefined {
  return answer && plainOf(factOf(answer));
}

export function numberOf(answer: Answer | undefined): number | undefined {
  const value = plainIn(answer);
  return typeof value === 'number' ? value : undefined;
}

/** The answer that stands at the end of the log. */
export function standing(story: Story, question: string): Answer | undefined {
  return story.state.answers[question]?.answer;
}

/** All answers to these questions in the order of the log, without those that the maker took back or put right. */
export function answersTo(story: Story, questions: readonly string[]): AnswerTold[] {
  return story.answers.filter((told) => questions.includes(told.question) && !told.takenBack);
}

export function figureOf(story: Story, fact: string): number | undefined {
  return story.state.figures[fact]?.value;
}

export function limitOf(book: Book, id: string): number | undefined {
  return book.limits[id]?.value;
}
