import { type Book, hazardOf, questionOf, stageOf } from '../../rulebook/book.ts';
import { askKey } from '../../rulebook/rule-keys.ts';
import type { Question } from '../../rulebook/rule-schema.ts';
import type { Answer } from '../events.ts';
import type { Offered, State } from '../state.ts';
import { answerInWords } from '../wording.ts';
import { isExactly, normal } from './match-words.ts';
import { readAnswer } from './read-answer.ts';
import { namedChoices, wordsOfQuestion } from './read-choice.ts';
import type { ReadContext } from './read-context.ts';
import { namedIn } from './read-phrases.ts';

/** The parts of a line that may answer different questions; numbers and their fractions stay whole. */
export function clausesOf(text: string): string[] {
  return text
    .split(
      /\s*(?:;|,(?!\d)|\.(?=\s)|\bbut\b|\bthen\b|\band\b(?!\s+(?:(?:a|one)\s+)?(?:half|quarter|third|\d)))\s*/i,
    )
    .map((part) => part.replace(/^and\s+/i, '').trim())
    .filter((part) => part !== '');
}

/** Words that so many questions share that they tell none apart. */
const common = new Set(
  'what how does do did you to of in on at and or for with from this that now any all many much one first more than which where yes no not has have be by long when your so far'.split(
    ' ',
  ),
);

/** How many telling words of a question a part of a line repeats. */
function overlap(question: Question, part: string): number {
  const words = wordsOfQuestion(question);
  const stem = (word: string) => word.replace(/(ed|ing|s|ped)$/, '');
  const own = new Set([...words].filter((word) => !common.has(word)).map(stem));
  return new Set(
    normal(part)
      .split(' ')
      .map(stem)
      .filter((word) => word.length > 2 && own.has(word)),
  ).size;
}

/** Whether a reading names its unit; a bare number could belong anywhere. */
function isPlain(part: string, answer: Answer): boolean {
  return (
    answer.kind !== 'quantity' || /[a-z°%]/i.test(part.replace(/\b(a|an|and|the|about|it|was|is)\b/gi, ''))
  );
}

function sureAnswer(question: Question, part: string, context: ReadContext): Answer | undefined {
  const reading = readAnswer(question, part, context);
  if (!('sure' in reading) || reading.sure.kind === 'not-sure' || reading.sure.kind === 'skipped')
    return undefined;
  return isPlain(part, reading.sure) ? reading.sure : undefined;
}

/** Questions that a line may answer ahead: of this stage, not answered, and none that clears a stop. */
function openBeside(book: Book, state: State, asking: string): Question[] {
  const clearing = state.held.flatMap((hold) => hazardOf(book, hold.stop).clear.ask);
  return stageOf(book, state.stage)
    .asks.filter((id) => id !== asking && !state.answers[id] && !clearing.includes(id))
    .map((id) => questionOf(book, id))
    .filter(({ id, when }) => when === undefined || state.true.includes(askKey(id)))
    .filter(({ answer }) => !('text' in answer) && !('many' in answer));
}

/** The one question that a part surely answers: by its own words; nothing when it could be several. */
function placeOf(questions: readonly Question[], part: string, context: ReadContext): Offered | undefined {
  const fits = questions.flatMap((question) => {
    const answer = sureAnswer(question, part, context);
    const shared = overlap(question, part);
    return answer && shared > 0 ? [{ question: question.id, answer, shared }] : [];
  });
  const most = Math.max(0, ...fits.map((fit) => fit.shared));
  const best = fits.filter((fit) => fit.shared === most);
  const [first] = best;
  if (!first) return undefined;
  return { question: first.question, answer: first.answer };
}

function sameAnswer(one: Answer, other: Answer): boolean {
  return JSON.stringify({ ...one, typed: undefined }) === JSON.stringify({ ...other, typed: undefined });
}

/** Whether a part only says again, in the words of the question, what was answered. */
function repeats(question: Question, answer: Answer, part: string): boolean {
  if (answer.kind !== 'choice' && answer.kind !== 'yes-no') return false;
  const choice = namedChoices(question).find((one) => answer.kind === 'choice' && one.id === answer.choice);
  const words = [answerInWords(question, answer), ...(choice?.words ?? [])].join(' ');
  const own = new Set(normal(words.replace(/[,;:()]/g, ' ')).split(' '));
  return normal(part)
    .split(' ')
    .every((word) => own.has(word));
}

/** A line that answers the asked question and others: what was understood, and what was not. */
export interface Several {
  answer: Answer;
  also: Offered[];
  unplaced: string[];
}

/** Whether the line also names another choice: "brown water, then oil" is not plainly oil. */
function namesAnother(asked: Question, answer: Answer, text: string): boolean {
  if (answer.kind !== 'choice') return false;
  const named = namedIn(text, namedChoices(asked));
  return named.some(({ id }) => id !== answer.choice);
}

/** Reads a line of several parts; nothing when it is one answer only. */
export function readClauses(
  book: Book,
  state: State,
  asking: string,
  text: string,
  context: ReadContext,
): Several | undefined {
  const asked = questionOf(book, asking);
  const parts = clausesOf(text);
  if (isExactly(text, namedChoices(asked))) return undefined;
  if (parts.length < 2 || parts.length > 6 || 'text' in asked.answer || 'many' in asked.answer)
    return undefined;
  const mine = parts.flatMap((part) => {
    const answer = sureAnswer(asked, part, context);
    return answer ? [{ part, answer }] : [];
  });
  const own = mine.length === 1 ? mine[0] : mine.find(({ part }) => part === parts[0]);
  if (!own || namesAnother(asked, own.answer, text)) return undefined;
  const also: Offered[] = [];
  const unplaced: string[] = [];
  for (const part of parts.filter((one) => one !== own.part)) {
    const free = openBeside(book, state, asking).filter(({ id }) => !also.some((one) => one.question === id));
    const place = placeOf(free, part, context);
    if (place) also.push(place);
    else if (!mine.some((one) => one.part === part && sameAnswer(one.answer, own.answer)))
      unplaced.push(part);
  }
  const open = openBeside(book, state, asking);
  const lost = unplaced
    .filter((part) => !repeats(asked, own.answer, part))
    .some((part) => open.some((question) => overlap(question, part) > 0));
  // A second reading is never dropped without a word.
  const numbers = 'quantity' in asked.answer && unplaced.some((part) => /\d/.test(part));
  return also.length > 0 || lost || numbers ? { answer: own.answer, also, unplaced } : undefined;
}

/** What was understood of such a line, said back. */
export function saySeveral(book: Book, asking: string, { answer, also, unplaced }: Several): string {
  const told = [{ question: asking, answer }, ...also].map((one) => {
    const question = questionOf(book, one.question);
    return `- ${question.short ?? question.ask} ${answerInWords(question, one.answer)}`;
  });
  const rest = unplaced.map((part) => `- "${part}" I leave out: say it again when I ask.`);
  return ['I understood:', ...told, ...rest, 'Is all of it so?'].join('\n');
}
