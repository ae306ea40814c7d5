import { bothSystems } from '../quantity/show.ts';
import { adviceOf, type Book, hazardOf, questionOf } from '../rulebook/book.ts';
import { type Evaluation, type Figure, figuresAfter } from '../rulebook/evaluation.ts';
import { nameOfFact } from '../rulebook/explain.ts';
import { type Draft, say } from './draft.ts';
import { occasionOf } from './enter-stage.ts';
import type { Answer, EventBody } from './events.ts';
import { factTable, statusOf } from './facts.ts';
import type { State } from './state.ts';
import { answerInWords, fill } from './wording.ts';

type Asked = Extract<EventBody, { type: 'WhatIfAsked' }>;
type Answered = Extract<EventBody, { type: 'WhatIfAnswered' }>;

/** Figures told in one reply; more would scroll the question away. */
const mostFigures = 8;

/** The state with one answer put in its place; only to look at, never kept. */
export function supposing(state: State, question: string, answer: Answer, at: string): State {
  const answered = {
    answer,
    status: statusOf(answer),
    at: state.answers[question]?.at ?? at,
    turn: state.turn + 1,
  };
  return { ...state, answers: { ...state.answers, [question]: answered } };
}

/** Asks the outside to run the same rules over a copy. */
export function askWhatIf(draft: Draft, { question, answer }: Asked): void {
  const { state } = draft;
  const supposed = supposing(state, question, answer, draft.at);
  draft.effects.push({
    do: 'consider',
    question,
    answer,
    occasion: { ...occasionOf(state), facts: factTable(supposed), explained: [] },
  });
}

type Figures = Readonly<Record<string, Figure>>;

const shown = ({ value, unit, plusMinus }: Figure) => bothSystems(value, unit, { plusMinus });

/** Figures that differ, and those that are no longer known, one a line, at most a handful. */
export function changedFigures(book: Book, before: Figures, now: Figures): string[] {
  const changed = Object.entries(now)
    .filter(([fact, figure]) => figure.value !== before[fact]?.value)
    .map(([fact, figure]) => {
      const was = before[fact];
      return `- ${nameOfFact(book, fact)}: ${shown(figure)}${was ? ` instead of ${shown(was)}` : ''}`;
    });
  const lost = Object.entries(before)
    .filter(([fact]) => !now[fact])
    .map(([fact, was]) => `- ${nameOfFact(book, fact)}: no longer known; it was ${shown(was)}`);
  const lines = [...changed, ...lost];
  const more = lines.length > mostFigures ? [`- and ${lines.length - mostFigures} more figures`] : [];
  return [...lines.slice(0, mostFigures), ...more];
}

/** Says what would be different; the facts of the batch stay as they are. */
export function tellWhatIf(draft: Draft, event: Answered): void {
  const { book, state } = draft;
  const outcome = event.outcome as Evaluation;
  const question = questionOf(book, event.question);
  const supposed = supposing(state, event.question, event.answer, draft.at);
  const wouldBe = { ...supposed, figures: figuresAfter(state.figures, outcome) };
  const stops = outcome.unsafe
    .filter((stop) => !state.held.some((hold) => hold.stop === stop))
    .map((stop) => `- Stop ${stop} would hold: ${fill(book, wouldBe, hazardOf(book, stop).say)}`);
  const advice = outcome.true
    .filter((key) => key.startsWith('advice:') && !state.told.includes(key))
    .flatMap((key) => adviceOf(book, state.stage, key.slice('advice:'.length)) ?? [])
    .map((one) => `- I would say: ${fill(book, wouldBe, one.say)}`);
  const holding = state.held
    .filter(({ stop }) => outcome.unsafe.includes(stop))
    .map(({ stop }) => `- Stop ${stop} holds already, and still would.`);
  const lines = [...stops, ...holding, ...changedFigures(book, state.figures, wouldBe.figures), ...advice];
  const opening = `If "${question.short ?? question.ask}" were ${answerInWords(question, event.answer)}:`;
  const rest = lines.length > 0 ? lines : ['- nothing that I have worked out so far would change.'];
  say(draft, 'help', [opening, ...rest, 'Nothing is changed; this was only looked at.'].join('\n'));
}
