import type { Answer, EventBody } from '../conversation/events.ts';
import { factOf } from '../conversation/facts.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { understand as understandLine } from '../conversation/understanding/understand.ts';
import { answerInWords } from '../conversation/wording.ts';
import { type Book, questionOf } from '../rulebook/book.ts';
import { plainOf } from '../rulebook/evaluation.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

type Value = string | number | boolean | string[];

/** How a line would be taken at a question, as `--json` prints it. */
export interface Understood {
  question: string;
  /** What is understood for certain. A line with several answers is still said back before they count. */
  answers: Record<string, Value>;
  request?: string;
  asksBack?: string;
  unsure?: true;
}

function plainValue(answer: Answer): Value | undefined {
  const fact = plainOf(factOf(answer));
  return typeof fact === 'number' ? Number(fact.toPrecision(12)) : fact;
}

const requestOf: Partial<Record<EventBody['type'], string>> = {
  AnswerWithdrawn: 'back',
  AnswerChanged: 'change',
  TroubleReported: 'trouble',
  NoteMade: 'note',
  SessionPaused: 'pause',
  BatchGivenUp: 'give-up',
  WhatIfAsked: 'what-if',
};

/** A talk that has come to this question and knows nothing else: no habits, no earlier answers. */
export function stateAsking(book: Book, question: string): State {
  const stage = book.stages.find((one) => one.asks.includes(question)) ?? book.stages[0];
  return { ...emptyState, stage: stage?.stage ?? '', asking: question, session: 1 };
}

function answersIn(given: readonly { question: string; answer: Answer }[]): Understood['answers'] {
  const values = given.map(({ question, answer }) => [question, plainValue(answer)] as const);
  return Object.fromEntries(values.filter((entry): entry is [string, Value] => entry[1] !== undefined));
}

/** What a line would do at a question of a talk. */
export function understood(book: Book, state: State, question: string, text: string): Understood {
  const event = understandLine(book, state, text);
  if (!event) return { question, answers: {}, asksBack: 'An empty line answers nothing.' };
  switch (event.type) {
    case 'AnswerGiven': {
      const answers = answersIn([event]);
      return plainValue(event.answer) === undefined
        ? { question, answers, unsure: true }
        : { question, answers };
    }
    case 'AnswerDoubted': {
      const several = event.also ? [{ question, answer: event.meant }, ...event.also] : [];
      return { question, answers: answersIn(several), asksBack: event.says };
    }
    case 'AnswerNotUnderstood':
      return { question, answers: {}, asksBack: event.says };
    case 'RequestMade':
      return { question, answers: {}, request: event.request };
    default:
      return { question, answers: {}, request: requestOf[event.type] ?? event.type };
  }
}

function inWords(
  book: Book,
  { answers, request, asksBack, unsure }: Understood,
  event: EventBody | undefined,
): string {
  const taken = Object.entries(answers).map(([id, value]) => {
    const exact = event?.type === 'AnswerGiven' && event.question === id;
    return `${id}: ${exact ? answerInWords(questionOf(book, id), event.answer) : String(value)}`;
  });
  if (unsure) taken.push('left open: the answer is not known');
  if (request) taken.push(`said beside the question: ${request}`);
  if (asksBack) taken.push(`asks back: ${asksBack}`);
  return `${taken.join('\n')}\n`;
}

/** `batchside understand`: how a typed answer would be taken, for whoever writes questions. */
export async function understand(
  words: readonly string[],
  options: { json: boolean; rules?: string },
): Promise<number> {
  const [question, ...rest] = words;
  if (question === undefined || rest.length === 0)
    throw new UsageError('batchside understand QUESTION "TEXT" [--json]');
  const book = await openBook(options.rules);
  const text = rest.join(' ');
  if (!Object.hasOwn(book.questions, question)) {
    const message = `There is no question "${question}".`;
    if (!options.json) throw new UsageError(message);
    process.stdout.write(`${JSON.stringify({ question, error: { message } })}\n`);
    return 2;
  }
  const state = stateAsking(book, question);
  const result = understood(book, state, question, text);
  const plain = () => inWords(book, result, understandLine(book, state, text));
  process.stdout.write(options.json ? `${JSON.stringify(result)}\n` : plain().replaceAll('\u00a0', ' '));
  return 0;
}
