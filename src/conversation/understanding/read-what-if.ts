import type { UnitId } from '../../quantity/units.ts';
import { type Book, questionOf } from '../../rulebook/book.ts';
import type { Answer, EventBody } from '../events.ts';
import type { State } from '../state.ts';
import { closest } from './match-words.ts';
import { readAnswer } from './read-answer.ts';
import { contextOf, type ReadContext } from './read-context.ts';

const supposes = /^what (?:if|would|about|happens (?:if|with))\s+(?<rest>.+?)\s*\??$/i;
const ending = /\s*\b(do|mean|change|give|be)$/i;
const step =
  /^(?<amount>.+?)\s+(?<way>more|less|fewer|higher|lower|hotter|colder|warmer|cooler)(?:\s+(?:of|for|in|on)\s+(?<what>.+))?$/i;
const named = /^(?<what>.+?)\s+(?:is|was|were|are|be|had been|reads|read|=|to)\s+(?<value>.+)$/i;

/** What is only supposed is not asked about: a bare number is in the unit asked for, a gallon the usual one. */
function lenient(state: State): ReadContext {
  return { gallon: 'US', ...contextOf(state), bareAsAsked: true };
}

/** The number answered last: what "3 mL more" is more of, when nothing is named. */
function lastNumber(state: State): string | undefined {
  const numbers = Object.entries(state.answers).filter(([, answered]) => answered.answer.kind === 'quantity');
  return numbers.sort(([, one], [, other]) => other.turn - one.turn)[0]?.[0];
}

function answeredQuestion(book: Book, state: State, words: string | undefined): string | undefined {
  if (words === undefined) return lastNumber(state);
  const known = [...Object.keys(state.answers), ...(state.asking ? [state.asking] : [])];
  const things = [...new Set(known)].map((id) => {
    const { ask, short } = questionOf(book, id);
    return { id, words: [id.replaceAll('-', ' '), ask, ...(short ? [short] : [])] };
  });
  return closest(words.replace(/^(?:the|my|that|it)\s+/i, ''), things);
}

/** The unit of a number, so that "3 more" is 3 of what was typed before. */
function typedUnit(answer: Answer): UnitId | undefined {
  return answer.kind === 'quantity' ? (answer.typed?.unit ?? answer.unit) : undefined;
}

function steppedAnswer(
  book: Book,
  state: State,
  question: string,
  amount: string,
  way: string,
): Answer | undefined {
  const before = state.answers[question]?.answer;
  if (before?.kind !== 'quantity') return undefined;
  const unit = typedUnit(before);
  const context = lenient(state);
  const hasUnit = /[a-z°%]/i.test(amount.replace(/\b(a|an|half|one|two|three|four|five|ten)\b/gi, ''));
  const zero = readAnswer(unbounded(book, question), hasUnit ? amount : `${amount} ${unit}`, context);
  const origin = readAnswer(unbounded(book, question), `0 ${unit}`, context);
  if (
    !('sure' in zero) ||
    zero.sure.kind !== 'quantity' ||
    !('sure' in origin) ||
    origin.sure.kind !== 'quantity'
  ) {
    return undefined;
  }
  // The difference of two readings, so that 5 °F more is not 5 °F above freezing.
  const difference = zero.sure.value - origin.sure.value;
  const sign = /^(less|fewer|lower|colder|cooler)$/i.test(way) ? -1 : 1;
  const { typed: _typed, ...kept } = before;
  return { ...kept, value: before.value + sign * difference };
}

/** The question without its limits: a supposed reading may be anything that can be worked out. */
function unbounded(book: Book, question: string) {
  const one = questionOf(book, question);
  if (!('quantity' in one.answer)) return one;
  const all: [number, number] = [-1e12, 1e12];
  return { ...one, answer: { quantity: { ...one.answer.quantity, plausible: all, possible: all } } };
}

/** Reads "what if the titration were 5 mL" and "what would 3 mL more do"; says what is missing when it cannot. */
export function readWhatIf(book: Book, state: State, text: string): EventBody | undefined {
  const rest = supposes.exec(text)?.groups?.rest?.replace(ending, '');
  if (!rest) return undefined;
  const stepped = step.exec(rest)?.groups;
  const told = stepped ? undefined : named.exec(rest)?.groups;
  const question = answeredQuestion(book, state, stepped ? stepped.what : told?.what);
  const fallback = state.asking ?? state.waiting?.question ?? lastNumber(state);
  const refuse = (says: string): EventBody | undefined =>
    fallback ? { type: 'AnswerNotUnderstood', question: fallback, text, says } : undefined;
  if (!question)
    return refuse('What if which answer? Say it like: what if titrant-1 were 5 mL, or: 3 mL more.');
  if (stepped?.amount && stepped.way) {
    const answer = steppedAnswer(book, state, question, stepped.amount, stepped.way);
    if (answer) return { type: 'WhatIfAsked', question, answer, text };
  } else if (told?.value) {
    const reading = readAnswer(unbounded(book, question), told.value, lenient(state));
    if ('sure' in reading) return { type: 'WhatIfAsked', question, answer: reading.sure, text };
  }
  return refuse(
    `What would you like "${questionOf(book, question).short ?? questionOf(book, question).ask}" to be instead?`,
  );
}
