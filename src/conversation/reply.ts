import { BadInputError } from '../chemistry/bad-input-error.ts';
import { calculate } from '../chemistry/calculate.ts';
import { calculationNamed, inputsFromWords } from '../chemistry/from-words.ts';
import { OutOfRangeError } from '../chemistry/out-of-range-error.ts';
import { resultLines } from '../chemistry/result-lines.ts';
import { type Book, factsUsedBy, hazardOf, hazardsAt, questionOf, stageOf } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Condition } from '../rulebook/condition.ts';
import { citeSource, explainFigure, explainTrace, type Values } from '../rulebook/explain.ts';
import { limitFacts, over } from '../rulebook/limit-facts.ts';
import { rootsOf } from '../rulebook/roots.ts';
import { type KnownFacts, stillMatters } from '../rulebook/three-valued.ts';
import { change, type Draft, say } from './draft.ts';
import type { RequestKind } from './events.ts';
import { factTable } from './facts.ts';
import { figureNamed, howSure } from './how-sure.ts';
import type { State } from './state.ts';
import { thoughtSoFar, whyChecked } from './trouble/explain-trouble.ts';
import { closest } from './understanding/match-words.ts';
import { whatCanBeSaid } from './understanding/read-request.ts';
import { timers, whatIsLeft } from './what-is-left.ts';
import { fill } from './wording.ts';

function valuesOf(book: Book, state: State): Values {
  return over(limitFacts(book), { ...factTable(state).values, ...state.figures });
}

/** Whether a rule is still open and needs this question: the analysis that decides what is asked. */
function hangsOn(book: Book, known: KnownFacts, condition: Condition, question: string): boolean {
  return stillMatters(condition, known).some((fact) => rootsOf(book, fact).includes(question));
}

function whyAsked(book: Book, state: State, question: string): string {
  const known = comparable(book, factTable(state), state.figures);
  const stops = hazardsAt(book, state.stage)
    .filter((hazard) => hangsOn(book, known, hazard['safe-when'], question))
    .map((hazard) => `A stop hangs on it (${hazard.signal}): ${hazard.because}`);
  const clears = state.held
    .map(({ stop }) => hazardOf(book, stop))
    .filter(({ clear }) => clear.ask.includes(question))
    .map((hazard) => `It clears the stop that holds (${hazard.signal}). Before going on: ${hazard.stop}`);
  const advice = stageOf(book, state.stage)
    .advice.filter((one) => hangsOn(book, known, one.when, question))
    .map((one) => `It decides what I tell you next: ${one.because}`);
  const figures = book.computations
    .filter((one) => factsUsedBy(one).some((fact) => rootsOf(book, fact).includes(question)))
    .map((one) => `It goes into ${one.about}.`);
  const reasons = [...new Set([...clears, ...stops, ...advice, ...figures])].slice(0, 4);
  if (reasons.length === 0) return 'The log needs it: whoever repeats or judges this batch will look for it.';
  return reasons.map((reason) => fill(book, state, reason)).join('\n');
}

/** What a finding out has come to, or why it asks this. */
function aboutTrouble(
  book: Book,
  state: State,
  request: RequestKind,
  about: string | undefined,
): string | undefined {
  if (!state.trouble || !book.diagnosis || about !== undefined) return undefined;
  if (request === 'why-ask') return whyChecked(book.diagnosis, state);
  const soFar = request === 'how-worked-out' || request === 'how-sure';
  return soFar ? thoughtSoFar(book.diagnosis, state) : undefined;
}

function lastSpoken(state: State): string | undefined {
  return Object.keys(state.traces).at(-1);
}

function explainRule(book: Book, state: State, key: string): string {
  const id = key.slice(key.indexOf(':') + 1);
  const rule =
    book.hazards.find((hazard) => hazard.id === id) ??
    book.stages.flatMap((stage) => stage.advice).find((advice) => advice.id === id);
  if (!rule) return 'I have not worked anything out yet.';
  const values = valuesOf(book, state);
  const conditions = (state.traces[key] ?? []).map((trace) => `- ${explainTrace(book, trace, values)}`);
  const figures = (state.traces[key] ?? []).flatMap((trace) => explainFigure(book, trace.fact, values) ?? []);
  const cited = `Source: ${citeSource(book, rule.source)}.`;
  return [`Rule ${id}: ${fill(book, state, rule.because)}`, ...conditions, ...new Set(figures), cited].join(
    '\n',
  );
}

function howWorkedOut(book: Book, state: State, about: string | undefined): string {
  const values = valuesOf(book, state);
  if (about) {
    const named = figureNamed(book, state, about);
    const explained = named && explainFigure(book, named, values);
    return (
      explained || `I have no figure called "${about}" yet. Say how did you get that for the last advice.`
    );
  }
  const last = lastSpoken(state);
  return last ? explainRule(book, state, last) : 'I have not worked anything out yet.';
}

function explainWord(book: Book, about: string | undefined): string {
  if (!about) return 'Which word? Say: what is WORD.';
  const entries = book.words.map((word) => ({ id: word.term, words: [word.term, ...(word.also ?? [])] }));
  const found = closest(about, entries);
  const word = book.words.find((one) => one.term === found);
  if (word) return `${word.term}: ${word.means}`;
  return `I have no entry for "${about}". Ask your mentor, and note the word so that it can be added.`;
}

function whereNow(book: Book, state: State): string {
  return book.stages
    .map((stage) => {
      const mark = stage.stage === state.stage ? '>' : state.path.includes(stage.stage) ? '+' : ' ';
      return `${mark} ${stage.title}`;
    })
    .join('\n');
}

/** One calculation with the maker's own numbers, beside the batch. */
function workOut(about: string): string {
  const [name = '', ...words] = about.split(/\s+/);
  try {
    const calculation = calculationNamed(name);
    const { result } = calculate(calculation, inputsFromWords(calculation, words));
    return [`${calculation.about}`, ...resultLines(calculation, result)].join('\n');
  } catch (error) {
    if (error instanceof BadInputError || error instanceof OutOfRangeError) return error.message;
    throw error;
  }
}

function replyWords(draft: Draft, request: RequestKind, about: string | undefined): string {
  const { book, state } = draft;
  const question = state.asking ?? state.waiting?.question;
  switch (request) {
    case 'what-can-i-say':
      return whatCanBeSaid;
    case 'how-to':
      return question ? questionOf(book, question).how : 'Nothing is asked just now.';
    case 'why-ask':
      return question ? whyAsked(book, state, question) : 'Nothing is asked just now.';
    case 'how-worked-out':
      return howWorkedOut(book, state, about);
    case 'word':
      return explainWord(book, about);
    case 'calculate':
      return workOut(about ?? '');
    case 'where':
      return whereNow(book, state);
    case 'how-sure':
      return howSure(book, state, about);
    case 'timers':
      return timers(book, state, Number(about ?? 0));
    case 'what-is-left':
      return whatIsLeft(book, state);
    case 'long-wording':
      return 'From now on I ask in full.';
    case 'short-wording':
      return 'From now on I ask in few words. Say long for the full wording.';
  }
}

/** Answers a request made beside the question, without losing the place. */
export function replyTo(draft: Draft, request: RequestKind, about: string | undefined): void {
  if (request === 'long-wording') change(draft, { wording: 'long' });
  if (request === 'short-wording') change(draft, { wording: 'short' });
  const { book, state } = draft;
  say(draft, 'help', aboutTrouble(book, state, request, about) ?? replyWords(draft, request, about));
}
