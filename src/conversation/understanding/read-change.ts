import { type Book, questionOf } from '../../rulebook/book.ts';
import type { Answer, EventBody } from '../events.ts';
import type { State } from '../state.ts';
import { answerInWords } from '../wording.ts';
import { giveOrGuard } from './guard.ts';
import { closest, normal } from './match-words.ts';
import { readAnswer } from './read-answer.ts';
import { sayEither } from './read-confirmation.ts';
import { contextOf } from './read-context.ts';
import type { Reading } from './reading.ts';

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

/** The answers that come nearest to the words typed, else the last ones, each by the name that it can be changed by. */
function sayNearest(book: Book, state: State, words: string): string {
  const typed = new Set(normal(words).split(' '));
  const given = [...new Map(state.past.map((one) => [one.question, one.answer])).entries()].map(
    ([id, answer]) => {
      const question = questionOf(book, id);
      const own = normal(`${id.replaceAll('-', ' ')} ${question.short ?? ''} ${question.ask}`).split(' ');
      const shared = new Set(own.filter((word) => typed.has(word))).size;
      return { id, shared, now: answerInWords(question, answer) };
    },
  );
  const near = given.filter(({ shared }) => shared > 0).sort((one, other) => other.shared - one.shared);
  const some = (near.length > 0 ? near : given.toReversed()).slice(0, 4);
  const lines = some.map(({ id, now }) => `- ${id.replaceAll('-', ' ')}: ${now}`);
  const [first] = some;
  if (!first) return 'There is no answer to change yet.';
  return [
    'Change which answer?',
    ...lines,
    `Say it like: change ${first.id.replaceAll('-', ' ')} to ...`,
  ].join('\n');
}

/** A change that is asked about before it counts; the line is kept so that a missing unit can be added. */
function doubtedChange(
  question: string,
  text: string,
  { says, meant, typed, either }: Exclude<Reading, { sure: Answer } | { notUnderstood: string }>,
): EventBody {
  const hint = either ? sayEither(either) : `yes${typed ? ' / keep' : ''} / no.`;
  const more = { ...(typed ? { typed } : {}), ...(either ? { either: [...either] } : {}) };
  return { type: 'AnswerDoubted', question, text, says: `${says} ${hint}`, meant, ...more, changes: true };
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
  if (state.trouble)
    return refuse('Not while we look for what went wrong. Say "leave it" first; then change what you like.');
  const question = questionMeant(book, state, found.what);
  if (!question) return refuse(sayNearest(book, state, found.what));
  const { ask, short } = questionOf(book, question);
  const given = state.past.findLast((one) => one.question === question);
  if (!found.value) {
    const now = given ? answerInWords(questionOf(book, question), given.answer) : 'open';
    return refuse(
      `"${short ?? ask}" is ${now}. To what? Say: change ${question.replaceAll('-', ' ')} to ...`,
    );
  }
  const reading = readAnswer(questionOf(book, question), found.value, contextOf(state));
  if ('sure' in reading) return giveOrGuard(book, state, question, reading.sure, text, true);
  if ('notUnderstood' in reading) return refuse(reading.notUnderstood);
  return doubtedChange(question, found.value, reading);
}
