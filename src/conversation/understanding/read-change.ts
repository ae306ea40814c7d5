import { type Book, questionOf } from '../../rulebook/book.ts';
import type { EventBody } from '../events.ts';
import type { State } from '../state.ts';
import { answerInWords } from '../wording.ts';
import { closest } from './match-words.ts';
import { readAnswer } from './read-answer.ts';
import { contextOf } from './read-context.ts';

const pattern =
  /^(?:change|correct|put right)\s+(?:the\s+|my\s+)?(?<what>.+?)(?:\s+(?:to|=)\s+(?<value>.+))?$/i;

function questionMeant(book: Book, state: State, words: string): string | undefined {
  const things = [...new Set(state.past.map((given) => given.question))].map((id) => {
    const { ask, short } = questionOf(book, id);
    return { id, words: [id.replaceAll('-', ' '), id, ask, ...(short ? [short] : [])] };
  });
  const named = things.find((one) => one.id === words.toLowerCase().replaceAll(' ', '-'));
  return named?.id ?? closest(words, things);
}

/** Reads "change oil volume to 42 gal". Nothing for other lines. */
export function readChange(book: Book, state: State, text: string): EventBody | undefined {
  const found = pattern.exec(text)?.groups;
  const asking = state.asking ?? state.waiting?.question;
  if (!found?.what || !asking) return undefined;
  const refuse = (says: string): EventBody => ({ type: 'AnswerNotUnderstood', question: asking, text, says });
  if (state.held.length > 0 || state.alarm) {
    return refuse('Not while a stop holds. Clear it by its own question first; then change what you like.');
  }
  const question = questionMeant(book, state, found.what);
  if (!question) return refuse('Change which answer? Say it like: change oil volume to 42 gal.');
  const { ask, short } = questionOf(book, question);
  const given = state.past.findLast((one) => one.question === question);
  if (!found.value) {
    const now = given ? answerInWords(questionOf(book, question), given.answer) : 'open';
    return refuse(
      `"${short ?? ask}" is ${now}. To what? Say: change ${question.replaceAll('-', ' ')} to ...`,
    );
  }
  const reading = readAnswer(questionOf(book, question), found.value, contextOf(state));
  if ('sure' in reading) return { type: 'AnswerChanged', question, answer: reading.sure, text };
  return refuse('says' in reading ? reading.says : reading.notUnderstood);
}
