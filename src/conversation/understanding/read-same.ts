import { type Book, questionOf } from '../../rulebook/book.ts';
import type { EventBody } from '../events.ts';
import { statusOf } from '../facts.ts';
import type { State } from '../state.ts';
import { answerInWords } from '../wording.ts';
import { isExactly } from './match-words.ts';
import { namedChoices } from './read-choice.ts';
import { bare } from './reading.ts';

const same =
  /^((its |it is )?(still )?(the )?same( again)?( (as|like) (the )?(last( time| one| visit)?|before|earlier|previously))?|as (before|last time)|like (before|last time))$/;

/** "Same as last time": the last answer to this question in this batch, said back before it counts. */
export function readSame(book: Book, state: State, id: string, text: string): EventBody | undefined {
  const question = questionOf(book, id);
  if (!same.test(bare(text)) || 'text' in question.answer || isExactly(text, namedChoices(question)))
    return undefined;
  const last = state.past.findLast((given) => given.question === id && statusOf(given.answer) === 'known');
  if (!last) {
    const says = 'I have no earlier answer to this in this batch. Give it in full.';
    return { type: 'AnswerNotUnderstood', question: id, text, says };
  }
  const words = answerInWords(question, last.answer);
  const says = `Last time it was: ${words}. Have you looked, and is it so again? yes / or the right answer.`;
  return { type: 'AnswerDoubted', question: id, text, says, meant: last.answer };
}
