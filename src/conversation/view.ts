import { dimensionOf, dimensionWords, type UnitId } from '../quantity/units.ts';
import { type Book, hazardOf, questionOf, stageOf } from '../rulebook/book.ts';
import type { Question } from '../rulebook/rule-schema.ts';
import type { Signal } from '../rulebook/signals.ts';
import type { State } from './state.ts';
import { choicesOf, fill } from './wording.ts';

export interface ShownChoice {
  /** The key that picks it, or its number where there are more choices than single keys. */
  key: string;
  say: string;
}

/** What a face shows below the finished turns; the same for screen and plain text. */
export interface View {
  batch: string;
  stage: string;
  part?: string;
  /** Stands in place of the stage, where the stage says nothing. */
  heading?: string;
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

/** Examples nearer to what is asked than those of the whole dimension. */
const examplesIn: Partial<Record<UnitId, string>> = {
  day: '30 days, 2 weeks or 3 months',
  h: '8 h or 90 min',
  mL: '2.5 mL',
  g: '350 g or 12.5 oz',
  'g/L': '1 g/L',
  'g/mL': '0.92 g/mL',
  m: '3 m or 10 ft',
};

function hintFor(question: Question): string {
  const { answer } = question;
  if ('choice' in answer) return 'a number, or in your words';
  if ('many' in answer) return 'numbers or words, as many as fit; or none';
  if ('yes-no' in answer) return 'yes or no, or its number';
  if ('clock' in answer) return 'a time of day, like 14:35';
  if ('text' in answer) return 'a few words';
  const unit = 'duration' in answer ? 'min' : answer.quantity.unit;
  const { noun, examples } = dimensionWords[dimensionOf(unit)];
  return `${noun}, like ${examplesIn[unit] ?? examples}`;
}

export function shownChoices(question: Question): ShownChoice[] {
  if ('yes-no' in question.answer) {
    const { yes, no } = question.answer['yes-no'];
    return [
      { key: '1', say: `yes: ${yes}` },
      { key: '2', say: `no: ${no}` },
    ];
  }
  const choices = choicesOf(question);
  // Ten choices have the keys 1 to 9 and 0; more are picked by a typed number.
  const keyOf = (index: number) => (choices.length <= 10 ? String((index + 1) % 10) : String(index + 1));
  return choices.map(({ say }, index) => ({ key: keyOf(index), say }));
}

/** The question as asked of this maker: the long wording for the first batches, the short one later. */
function wordingOf(book: Book, state: State, question: Question): string {
  const experienced = state.answers.experience?.answer;
  const usual = experienced?.kind === 'choice' && experienced.choice === 'more' ? 'short' : 'long';
  const short = (state.wording ?? usual) === 'short' ? question.short : undefined;
  return fill(book, state, short ?? question.ask);
}

/** Whether one key answers: not where a number has to be typed out, or could be a reading. */
function isOneKey(question: Question): boolean {
  if ('yes-no' in question.answer) return true;
  return 'choice' in question.answer && !question.bands && choicesOf(question).length <= 10;
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
  // One line below the question: a list that was said back stands above in full.
  if (state.doubt) {
    view.confirms = fill(book, state, state.doubt.says)
      .replaceAll(':\n- ', ': ')
      .replaceAll('\n- ', '; ')
      .replaceAll('\n', ' ');
  }
  if (state.asking) {
    const question = questionOf(book, state.asking);
    const part = stage.parts?.find((one) => one.id === question.part);
    if (part) view.part = part.title;
    if (state.trouble) view.part = 'finding out what went wrong';
    if (state.trouble?.alone) view.heading = 'Finding out what went wrong';
    view.question = {
      id: question.id,
      ask: wordingOf(book, state, question),
      choices: shownChoices(question),
      hint: hintFor(question),
      oneKey: isOneKey(question),
    };
  } else if (state.waiting) {
    const { since, minutes, fixed } = state.waiting;
    view.waiting = { for: fill(book, state, state.waiting.for), since, minutes, fixed };
  }
  return view;
}
