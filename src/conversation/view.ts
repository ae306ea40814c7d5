import { dimensionOf, dimensionWords } from '../quantity/units.ts';
import { type Book, hazardOf, questionOf, stageOf } from '../rulebook/book.ts';
import type { Question } from '../rulebook/rule-schema.ts';
import type { Signal } from '../rulebook/signals.ts';
import type { State } from './state.ts';
import { choicesOf, fill } from './wording.ts';

export interface ShownChoice {
  /** The key that picks it; empty when there are more choices than single keys. */
  key: string;
  say: string;
}

/** What a face shows below the finished turns; the same for screen and plain text. */
export interface View {
  batch: string;
  stage: string;
  part?: string;
  /** Which stage this is, and of how many. */
  step: number;
  steps: number;
  /** Questions of the stage with an answer, and all that may still be asked. */
  answered: number;
  asks: number;
  held: { id: string; signal: Signal }[];
  question?: { id: string; ask: string; choices: ShownChoice[]; hint: string; oneKey: boolean };
  /** Set while something has to be confirmed; a single key then answers nothing. */
  confirms?: string;
  waiting?: { for: string; since: string; minutes: number; fixed: boolean };
  busy: boolean;
  ended: State['ended'];
  paused: boolean;
}

function hintFor(question: Question): string {
  const { answer } = question;
  if ('choice' in answer) return 'a number, or in your words';
  if ('many' in answer) return 'numbers or words, as many as fit; or none';
  if ('yes-no' in answer) return 'yes or no, or its number';
  if ('clock' in answer) return 'a time of day, like 14:35';
  if ('text' in answer) return 'a few words';
  const { noun, examples } = dimensionWords[dimensionOf('duration' in answer ? 'min' : answer.quantity.unit)];
  return `${noun}, like ${examples}`;
}

export function shownChoices(question: Question): ShownChoice[] {
  if ('yes-no' in question.answer) {
    const { yes, no } = question.answer['yes-no'];
    return [
      { key: '1', say: `yes: ${yes}` },
      { key: '2', say: `no: ${no}` },
    ];
  }
  return choicesOf(question).map(({ say }, index) => ({ key: index < 9 ? String(index + 1) : '', say }));
}

/** The question as asked of this maker: the long wording for the first batches, the short one later. */
function wordingOf(book: Book, state: State, question: Question): string {
  const experienced = state.answers.experience?.answer;
  const usual = experienced?.kind === 'choice' && experienced.choice === 'more' ? 'short' : 'long';
  const short = (state.wording ?? usual) === 'short' ? question.short : undefined;
  return fill(book, state, short ?? question.ask);
}

export function viewOf(book: Book, state: State): View {
  const stage = stageOf(book, state.stage);
  const view: View = {
    batch: state.batch,
    stage: stage.title,
    step: book.stages.indexOf(stage) + 1,
    steps: book.stages.length,
    answered: stage.asks.filter((id) => state.answers[id]).length,
    asks: stage.asks.length,
    held: state.held.map((hold) => ({ id: hold.stop, signal: hazardOf(book, hold.stop).signal })),
    busy: state.evaluating,
    ended: state.ended,
    paused: state.paused,
  };
  if (state.doubt) view.confirms = fill(book, state, state.doubt.says);
  if (state.asking) {
    const question = questionOf(book, state.asking);
    const part = stage.parts?.find((one) => one.id === question.part);
    if (part) view.part = part.title;
    view.question = {
      id: question.id,
      ask: wordingOf(book, state, question),
      choices: shownChoices(question),
      hint: hintFor(question),
      oneKey: 'choice' in question.answer || 'yes-no' in question.answer,
    };
  } else if (state.waiting) {
    const { since, minutes, fixed } = state.waiting;
    view.waiting = { for: fill(book, state, state.waiting.for), since, minutes, fixed };
  }
  return view;
}
