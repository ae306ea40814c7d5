import { type Book, hazardOf, questionOf } from '../../rulebook/book.ts';
import { comparable } from '../../rulebook/comparable.ts';
import type { Hazard } from '../../rulebook/rule-schema.ts';
import { judge } from '../../rulebook/three-valued.ts';
import type { Answer, EventBody } from '../events.ts';
import { factOf, factTable } from '../facts.ts';
import { askWhetherMistaken, wouldTakeBack } from '../mistaken-report.ts';
import type { State } from '../state.ts';
import { warnsOf } from '../warned.ts';
import { supposing } from '../what-if.ts';
import { answerInWords } from '../wording.ts';

type Verdict = ReturnType<typeof judge>;

function verdictOn(book: Book, state: State, hazard: Hazard, question: string, answer: Answer): Verdict {
  const supposed = factTable(supposing(state, question, answer, ''));
  return judge(hazard.clear['safe-when'], comparable(book, supposed, state.figures));
}

/** What is said before an answer may clear a DANGER stop, or be the one thing that it hangs on. */
function guardedByStop(book: Book, state: State, question: string, answer: Answer): string | undefined {
  const [hold] = state.held;
  if (state.alarm || hold === undefined) return undefined;
  const hazard = hazardOf(book, hold.stop);
  if (hazard.signal !== 'DANGER') return undefined;
  const verdict = verdictOn(book, state, hazard, question, answer);
  if (verdict === 'false') return undefined;
  const clears = verdict === 'true' ? 'This clears a DANGER stop.' : 'A DANGER stop hangs on this too.';
  const words = answerInWords(questionOf(book, question), answer);
  return `${clears} You say: "${words}". Type yes if you have just looked and it is so.`;
}

function same(one: Answer, other: Answer): boolean {
  return JSON.stringify(factOf(one)) === JSON.stringify(factOf(other));
}

/** What is said before an answer replaces one on which a danger was told. */
function guardedByWarning(
  book: Book,
  state: State,
  question: string,
  answer: Answer,
  changes: boolean,
): string | undefined {
  // Advice may have put the question off and forgotten its answer: what was given last counts all the same.
  const given = state.past.findLast((one) => one.question === question)?.answer;
  const warned = changes && warnsOf(book, state, question);
  const before = state.challenged[question] ?? (warned ? given : undefined);
  if (!before || same(before, answer)) return undefined;
  const asked = questionOf(book, question);
  const [was, is] = [answerInWords(asked, before), answerInWords(asked, answer)];
  return `You said "${was}", and I warned you. Is "${is}" what you see now? Type yes if you have looked again.`;
}

function guardWords(
  book: Book,
  state: State,
  question: string,
  answer: Answer,
  changes: boolean,
): string | undefined {
  if (answer.kind === 'not-sure' || answer.kind === 'skipped') return undefined;
  if (wouldTakeBack(book, state, question, answer)) return askWhetherMistaken(book, state);
  return (
    guardedByStop(book, state, question, answer) ?? guardedByWarning(book, state, question, answer, changes)
  );
}

/** Whether an answer is said back and confirmed with a typed yes before it counts. */
export function isGuarded(book: Book, state: State, question: string, answer: Answer): boolean {
  return guardWords(book, state, question, answer, false) !== undefined;
}

/** Gives or changes an answer, or, where that could undo a danger, says it back first. */
export function giveOrGuard(
  book: Book,
  state: State,
  question: string,
  answer: Answer,
  text: string,
  changes: true | undefined = undefined,
): EventBody {
  const says = guardWords(book, state, question, answer, changes === true);
  if (says === undefined) return { type: changes ? 'AnswerChanged' : 'AnswerGiven', question, answer, text };
  const more = changes ? { changes } : {};
  return { type: 'AnswerDoubted', question, text, says, meant: answer, ...more };
}
