import { bothSystems, showQuantity } from '../quantity/show.ts';
import { convert } from '../quantity/units.ts';
import type { Book } from '../rulebook/book.ts';
import { type Figure, isFigure } from '../rulebook/evaluation.ts';
import type { Formula, Limit, Question } from '../rulebook/rule-schema.ts';
import type { Answer } from './events.ts';
import { factTable } from './facts.ts';
import type { State } from './state.ts';

const limitDigits = 3;
const roundingNoise = 1e-6;

/** The choices that a question offers, in order; none for other kinds. */
export function choicesOf(question: Question): { id: string; say: string; also: string[] }[] {
  const listed =
    'choice' in question.answer
      ? question.answer.choice
      : 'many' in question.answer
        ? question.answer.many
        : {};
  return Object.entries(listed).map(([id, choice]) => ({ id, say: choice.say, also: choice.also ?? [] }));
}

/** An answer in the words that the question offers. */
export function answerInWords(question: Question, answer: Answer): string {
  const say = (id: string) => choicesOf(question).find((choice) => choice.id === id)?.say ?? id;
  switch (answer.kind) {
    case 'choice':
      return say(answer.choice);
    case 'many':
      return answer.choices.length === 0 ? 'none of these' : answer.choices.map(say).join(', ');
    case 'quantity':
      return bothSystems(answer.value, answer.unit, {
        plusMinus: answer.plusMinus,
        ...(answer.typed ? { typedUnit: answer.typed.unit } : {}),
      });
    case 'yes-no':
      return 'yes-no' in question.answer
        ? question.answer['yes-no'][answer.yes ? 'yes' : 'no']
        : String(answer.yes);
    case 'clock':
      return answer.time;
    case 'text':
      return answer.text;
    case 'not-sure':
      return 'not sure';
    default:
      return 'skipped';
  }
}

/** A limit, and in US units as nearly as a person needs it: 10 cm is 4 in, not 3.94. */
function limitInWords({ value, unit }: Limit): string {
  const metric = showQuantity(Number(value.toPrecision(limitDigits)), unit);
  const us = showQuantity(value, unit, unit === 'degC' ? { system: 'US' } : { system: 'US', digits: 2 });
  return us === showQuantity(value, unit, { digits: 2 }) || us === metric ? metric : `${metric} (${us})`;
}

type Setting = NonNullable<Formula['setting']>;

function settingOf(book: Book, fact: string): Setting | undefined {
  const computation = book.computations.find((one) => 'formula' in one && one.fact === fact);
  return computation && 'formula' in computation ? computation.setting : undefined;
}

/**
 * A mark that is set on a dial or kept to, in tenths of a °C and whole °F, rounded to the safe side. The ± of the
 * altitude behind it helps nobody there.
 */
function settingInWords({ value, unit }: Figure, setting: Setting): string {
  const round = (number: number) =>
    setting === 'at-most' ? Math.floor(number + roundingNoise) : Math.ceil(number - roundingNoise);
  const celsius = round(convert(value, unit, 'degC') * 10) / 10;
  const fahrenheit = round(convert(value, unit, 'degF'));
  return `${showQuantity(celsius, 'degC')} (${showQuantity(fahrenheit, 'degF')})`;
}

function factInWords(book: Book, state: State, id: string): string {
  if (id.startsWith('limit.')) {
    const limit = book.limits[id.slice('limit.'.length)];
    if (limit) return limitInWords(limit);
  }
  const figure = state.figures[id];
  const setting = settingOf(book, id);
  if (figure && setting) return settingInWords(figure, setting);
  if (figure) return bothSystems(figure.value, figure.unit, { plusMinus: figure.plusMinus });
  const answered = state.answers[id];
  const question = book.questions[id];
  if (answered && question) return answerInWords(question, answered.answer);
  const value = factTable(state).values[id];
  return value === undefined ? 'not known' : isFigure(value) ? String(value.value) : String(value);
}

/** Puts the values of facts into a rule's words: `{fact-id}` becomes the value with its unit and ±. */
export function fill(book: Book, state: State, words: string): string {
  return words.replace(/\{([a-zA-Z0-9.-]+)\}/g, (_whole, id: string) => factInWords(book, state, id));
}
