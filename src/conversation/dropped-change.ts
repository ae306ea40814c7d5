import { questionOf } from '../rulebook/book.ts';
import { type Draft, say } from './draft.ts';
import { answerInWords } from './wording.ts';

/** Says that an answer stays as it was, where a change of it was asked about and something else was typed. */
export function tellDroppedChange(draft: Draft): void {
  const { book, state } = draft;
  const { doubt, answers } = state;
  const kept = doubt?.changes ? answers[doubt.question]?.answer : undefined;
  if (!doubt || !kept) return;
  const question = questionOf(book, doubt.question);
  say(
    draft,
    'note',
    `Not changed: ${question.short ?? question.ask} It stays ${answerInWords(question, kept)}.`,
  );
}
