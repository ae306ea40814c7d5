import { readClock } from '../quantity/read-clock.ts';
import { readQuantity } from '../quantity/read-quantity.ts';
import { bothSystems, showQuantity } from '../quantity/show.ts';
import { convert, type UnitId } from '../quantity/units.ts';
import type { Question } from '../rulebook/rule-schema.ts';
import type { Answer } from './events.ts';
import { matchWords, type Named, normal } from './match-words.ts';
import { choicesOf } from './wording.ts';

/** How a typed line was taken as the answer to one question. */
export type Reading =
  | { sure: Answer }
  | { says: string; meant: Answer; typed?: Answer }
  | { notUnderstood: string };

type Span = [number, number];
interface Measure {
  unit: UnitId;
  plausible: Span;
  possible: Span;
  reads: number;
}

const unsure =
  /^(not (really )?sure|unsure|no idea|dunno|dont know|do not know|cant (tell|see|say)|cannot (tell|see|say)|hard to (tell|say)|maybe)$/;
const skip = /^(skip|pass|next|leave empty|none given)$/;
const negation = /\b(no|not|never|none|without|isnt|arent|wasnt|dont|doesnt|nothing)\b/;
const yesWords = ['yes', 'y', 'yep', 'yeah', 'sure', 'true', 'done', 'ok', 'correct', 'affirmative'];
const noWords = ['no', 'n', 'nope', 'nah', 'false', 'not yet', 'negative'];

function bare(text: string): string {
  return text
    .toLowerCase()
    .replace(/[’'.!,]/g, '')
    .trim();
}

function listChoices(question: Question): string {
  return choicesOf(question)
    .map((choice, index) => `${index + 1} ${choice.say}`)
    .join(', ');
}

function namedChoices(question: Question): Named[] {
  return choicesOf(question).map(({ id, say, also }) => ({
    id,
    words: [say, id.replaceAll('-', ' '), ...also],
  }));
}

/** A negated line matches a choice only if that choice is itself worded so: "not clear yet" is not "clear". */
function isDenied(text: string, named: Named | undefined): boolean {
  return negation.test(bare(text)) && !named?.words.some((word) => negation.test(bare(word)));
}

function readChoice(question: Question, text: string): Reading {
  const choices = choicesOf(question);
  const number = /^#?(\d{1,2})[.)]?$/.exec(text.trim())?.[1];
  if (number !== undefined) {
    const picked = choices[Number(number) - 1];
    if (picked) return { sure: { kind: 'choice', choice: picked.id } };
    return { notUnderstood: `There is no choice ${number}. The choices: ${listChoices(question)}.` };
  }
  const named = namedChoices(question);
  const match = matchWords(text, named);
  const sayOf = (id: string) => choices.find((choice) => choice.id === id)?.say ?? id;
  if ('certain' in match) {
    const answer: Answer = { kind: 'choice', choice: match.certain };
    const found = named.find((one) => one.id === match.certain);
    if (!isDenied(text, found)) return { sure: answer };
    return { notUnderstood: `"${text.trim()}" says what it is not. Which is it: ${listChoices(question)}?` };
  }
  const [first] = 'maybe' in match ? match.maybe : [];
  if (
    'maybe' in match &&
    match.maybe.length === 1 &&
    first &&
    !isDenied(
      text,
      named.find((one) => one.id === first),
    )
  ) {
    return { says: `Did you mean "${sayOf(first)}"?`, meant: { kind: 'choice', choice: first } };
  }
  if ('maybe' in match && match.maybe.length > 1) {
    return { notUnderstood: `Several fit: ${match.maybe.map(sayOf).join(', ')}. Which one?` };
  }
  return { notUnderstood: `I take one of: ${listChoices(question)}. Or say "not sure".` };
}

function readMany(question: Question, text: string): Reading {
  const choices = choicesOf(question);
  if (/^(none|nothing|no|none of (these|them))$/.test(bare(text)))
    return { sure: { kind: 'many', choices: [] } };
  const parts = text
    .split(/,|;|\band\b|\+|&/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  const picked: string[] = [];
  for (const part of parts) {
    const one = readChoice(question, part);
    if (!('sure' in one) || one.sure.kind !== 'choice')
      return {
        notUnderstood: `I take any of: ${choices.map((choice, index) => `${index + 1} ${choice.say}`).join(', ')}; or "none".`,
      };
    picked.push(one.sure.choice);
  }
  return { sure: { kind: 'many', choices: [...new Set(picked)] } };
}

function readYesNo(question: Question, text: string): Reading {
  const typed = bare(text);
  const [first = ''] = typed.split(' ');
  if (typed === '1' || yesWords.includes(typed)) return { sure: { kind: 'yes-no', yes: true } };
  if (typed === '2' || noWords.includes(typed)) return { sure: { kind: 'yes-no', yes: false } };
  if (!('yes-no' in question.answer)) return { notUnderstood: 'I take yes or no.' };
  const { yes, no } = question.answer['yes-no'];
  const match = matchWords(text, [
    { id: 'yes', words: [yes] },
    { id: 'no', words: [no] },
  ]);
  if ('certain' in match && !(match.certain === 'yes' && negation.test(typed) && !negation.test(bare(yes)))) {
    return { sure: { kind: 'yes-no', yes: match.certain === 'yes' } };
  }
  const meant = ['yes', 'y', 'yep', 'yeah'].includes(first)
    ? true
    : ['no', 'n', 'nope'].includes(first)
      ? false
      : undefined;
  if (meant === undefined)
    return { notUnderstood: `I take 1 yes (${yes}) or 2 no (${no}). Or say "not sure".` };
  return { says: `Shall I write "${meant ? yes : no}"?`, meant: { kind: 'yes-no', yes: meant } };
}

function within([low, high]: Span, value: number): boolean {
  return value >= low && value <= high;
}

function spanInWords(measure: Measure, span: Span): string {
  return `${showQuantity(span[0], measure.unit, {})} to ${showQuantity(span[1], measure.unit, {})}`;
}

/** Units that are often meant when another, or none, was typed. */
const mixedUp: Record<string, UnitId[]> = {
  degC: ['degF', 'degC'],
  L: ['galUS', 'L', 'mL'],
  mL: ['mL', 'L'],
  g: ['g', 'kg', 'oz', 'lb'],
  kg: ['kg', 'lb', 'g'],
  min: ['min', 'h'],
  m: ['m', 'ft'],
};

function likelyMeaning(measure: Measure, typed: number, not: number): Answer | undefined {
  for (const unit of mixedUp[measure.unit] ?? []) {
    const value = convert(typed, unit, measure.unit);
    if (within(measure.plausible, value) && Math.abs(value - not) > 1e-9)
      return quantity(measure, value, { value: typed, unit });
  }
  return undefined;
}

function quantity(
  measure: Measure,
  value: number,
  typed: { value: number; unit: UnitId },
  plusMinus: number = measure.reads,
): Answer {
  return { kind: 'quantity', value, unit: measure.unit, plusMinus, typed };
}

function readMeasure(measure: Measure, text: string): Reading {
  const read = readQuantity(text, { unit: measure.unit, plausible: measure.plausible });
  if ('problem' in read) return { notUnderstood: read.say };
  const { value, typed } = read;
  const spread = read.plusMinus ?? (read.approx ? 2 * measure.reads : measure.reads);
  const answer = quantity(measure, value, { value: typed.value, unit: typed.unit }, Math.max(spread, 0));
  if (within(measure.plausible, value)) return { sure: answer };
  const shown = bothSystems(value, measure.unit, { typedUnit: typed.unit });
  const meant = likelyMeaning(measure, typed.value, value);
  const suggestion =
    meant?.kind === 'quantity' ? showQuantity(typed.value, meant.typed?.unit ?? measure.unit, {}) : '';
  if (!within(measure.possible, value)) {
    const limits = `it can only be ${spanInWords(measure, measure.possible)}`;
    if (!meant) return { notUnderstood: `${shown} cannot be: ${limits}. What does it read?` };
    return { says: `${shown} cannot be: ${limits}. Did you mean ${suggestion}?`, meant };
  }
  const usual = `usual is ${spanInWords(measure, measure.plausible)}`;
  if (meant)
    return {
      says: `${shown} would surprise me: ${usual}. Did you mean ${suggestion}?`,
      meant,
      typed: answer,
    };
  return {
    says: `${shown} would surprise me: ${usual}. Shall I write it as it stands?`,
    meant: answer,
    typed: answer,
  };
}

function readTime(text: string): Reading {
  const clock = readClock(text);
  if ('problem' in clock) return { notUnderstood: clock.problem };
  const time = (hour: number) => `${String(hour).padStart(2, '0')}:${String(clock.minute).padStart(2, '0')}`;
  const answer: Answer = { kind: 'clock', time: time(clock.hour) };
  if (!clock.ambiguous12h) return { sure: answer };
  const afternoon: Answer = { kind: 'clock', time: time((clock.hour % 12) + 12) };
  return { says: `Is that ${afternoon.time}? Say keep for ${answer.time}.`, meant: afternoon, typed: answer };
}

/** Takes a typed line as the answer to a question; what is doubtful is asked about, never guessed. */
export function readAnswer(question: Question, text: string): Reading {
  const typed = bare(text);
  if (unsure.test(typed)) return { sure: { kind: 'not-sure' } };
  if (skip.test(typed)) return { sure: { kind: 'skipped' } };
  const { answer } = question;
  if ('choice' in answer) return readChoice(question, text);
  if ('many' in answer) return readMany(question, text);
  if ('yes-no' in answer) return readYesNo(question, text);
  if ('quantity' in answer) return readMeasure(answer.quantity, text);
  if ('duration' in answer) return readMeasure({ unit: 'min', ...answer.duration }, text);
  if ('clock' in answer) return readTime(text);
  const kept = text.trim();
  return kept === '' || normal(kept) === ''
    ? { notUnderstood: 'I take a few words.' }
    : { sure: { kind: 'text', text: kept } };
}
