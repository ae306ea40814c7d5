import { type Book, questionOf } from '../../rulebook/book.ts';
import type { Answer, EventBody } from '../events.ts';
import { isExactly } from './match-words.ts';
import { namedChoices } from './read-choice.ts';
import type { Reading } from './reading.ts';
import { dangerToPeople } from './urgent.ts';

/** Whether an answer to the alarm says that there is no danger. */
export function isCalm(answer: Answer): boolean {
  return answer.kind === 'choice' && (answer.choice === 'not-right' || answer.choice === 'all-well');
}

/** The choice of the alarm question that a cry for help plainly is: fire, or somebody hurt. Nothing where it is not plain. */
export function dangerIn(book: Book, text: string): Answer | undefined {
  const choice = dangerToPeople(text);
  const answer = book.questions.alarm?.answer;
  const isOffered = choice && answer && 'choice' in answer && answer.choice[choice];
  return isOffered ? { kind: 'choice', choice } : undefined;
}

/**
 * What is typed at the alarm: plain danger counts at once, and nothing but the very words is taken, or offered, as
 * "all is well": who describes something is not to be talked out of it.
 */
export function asAlarm(book: Book, text: string, reading: Reading): EventBody | undefined {
  const question = questionOf(book, 'alarm');
  if ('sure' in reading && !isCalm(reading.sure)) return undefined;
  const danger = dangerIn(book, text);
  if (danger) return { type: 'AnswerGiven', question: 'alarm', answer: danger, text };
  const meant = 'sure' in reading ? reading.sure : 'meant' in reading ? reading.meant : undefined;
  const plain = /^\d{1,2}$/.test(text) || isExactly(text, namedChoices(question));
  if (!meant || !isCalm(meant) || plain) return undefined;
  const says =
    'I cannot tell whether that is a danger. If in doubt take the line that is nearest to it; if nothing here fits and nobody can come to harm, say: no danger.';
  return { type: 'AnswerNotUnderstood', question: 'alarm', text, says };
}
