import { calculations } from '../chemistry/catalogue.ts';
import { showQuantity } from '../quantity/show.ts';
import type { UnitId } from '../quantity/units.ts';
import { type Book, factsSetBy } from './book.ts';
import type { Operator, Plain } from './condition.ts';
import { type Figure, isFigure, type Trace } from './evaluation.ts';
import type { Computation, Operand, SourceRef } from './rule-schema.ts';

const said: Record<Operator, string> = {
  equal: 'is',
  notEqual: 'is not',
  in: 'is one of',
  notIn: 'is none of',
  lessThan: 'is below',
  lessThanInclusive: 'is at most',
  greaterThan: 'is above',
  greaterThanInclusive: 'is at least',
  contains: 'includes',
  doesNotContain: 'does not include',
};

export type Values = Readonly<Record<string, Plain | Figure | undefined>>;

/** A calculation may give several figures; then each goes by what that one is. */
function nameOfFigure(computation: Computation, fact: string): string {
  if ('formula' in computation || Object.keys(computation.gives).length === 1) return computation.about;
  const output = computation.gives[fact] ?? '';
  return calculations[computation.calculation]?.outputs[output]?.about ?? computation.about;
}

/** Facts that the rules only name and the program works out: what each is, and its unit. */
export type OwnFacts = Readonly<Record<string, { about: string; unit?: UnitId }>>;

/** A fact's name for people: its question in words, what a limit is, or what a computation works out. */
export function nameOfFact(book: Book, fact: string, own: OwnFacts = {}): string {
  if (own[fact]) return own[fact].about.replace(/\.$/, '');
  if (fact.startsWith('limit.')) return book.limits[fact.slice('limit.'.length)]?.is ?? fact;
  if (fact.startsWith('status.'))
    return `how "${nameOfFact(book, fact.slice('status.'.length))}" was answered`;
  if (fact.startsWith('asked.'))
    return `whether "${nameOfFact(book, fact.slice('asked.'.length))}" was answered`;
  if (fact.startsWith('minutes.')) return `the time of "${nameOfFact(book, fact.slice('minutes.'.length))}"`;
  const question = book.questions[fact];
  if (question) return question.short ?? question.ask;
  const computation = book.computations.find((one) => factsSetBy(one).includes(fact));
  return computation ? nameOfFigure(computation, fact) : fact;
}

function unitOf(book: Book, fact: string, figures: Values, own: OwnFacts): UnitId | undefined {
  if (own[fact]) return own[fact].unit;
  if (fact.startsWith('limit.')) return book.limits[fact.slice('limit.'.length)]?.unit;
  const answer = book.questions[fact]?.answer;
  if (answer && 'quantity' in answer) return answer.quantity.unit;
  if (answer && 'duration' in answer) return 'min';
  const figure = figures[fact];
  return isFigure(figure) ? figure.unit : undefined;
}

function show(value: Plain | undefined, unit: UnitId | undefined): string {
  if (value === undefined) return 'not known';
  if (Array.isArray(value)) return value.join(', ') || 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'number' ? showQuantity(value, unit ?? '1', {}) : value;
}

/** Choices in the words that the maker chose among; other values as they are. */
function choiceInWords(book: Book, fact: string, value: Plain | undefined): Plain | undefined {
  const answer = book.questions[fact]?.answer;
  const choices = answer && ('choice' in answer ? answer.choice : 'many' in answer ? answer.many : undefined);
  const word = (id: string) => (choices?.[id] ? `"${choices[id].say}"` : id);
  if (Array.isArray(value)) return value.map((one) => word(String(one)));
  return typeof value === 'string' ? word(value) : value;
}

/** One comparison in words, with the answer that met it. */
export function explainTrace(book: Book, trace: Trace, figures: Values, own: OwnFacts = {}): string {
  const unit = unitOf(book, trace.fact, figures, own);
  const other =
    typeof trace.value === 'object' && !Array.isArray(trace.value)
      ? `${show(trace.against, unitOf(book, trace.value.fact, figures, own))} (${nameOfFact(book, trace.value.fact, own)})`
      : show(choiceInWords(book, trace.fact, trace.value), unit);
  const was = show(choiceInWords(book, trace.fact, trace.was), unit);
  const met = trace.met === undefined ? 'not needed' : trace.met ? 'met' : 'not met';
  return `${nameOfFact(book, trace.fact, own)} ${said[trace.operator]} ${other}: it was ${was}, ${met}`;
}

/** A source as a reader can find it. */
export function citeSource(book: Book, source: SourceRef): string {
  const id = typeof source === 'string' ? source : source.id;
  const where = typeof source === 'string' ? '' : `, ${source.where}`;
  // The sentence around it ends with its own full stop.
  const cite = (book.sources[id]?.cite ?? id).replace(/\.$/, '');
  return `${cite}${where}`.replace(/\.$/, '');
}

function explainOperand(operand: Operand, values: Values): string {
  if (typeof operand === 'number') return String(operand);
  if (typeof operand === 'object' && 'text' in operand) return operand.text;
  const fact = typeof operand === 'string' ? operand : operand.fact;
  const value = values[fact];
  if (value === undefined && typeof operand === 'object') return `${operand.else} (nothing was measured)`;
  if (!isFigure(value)) return show(value, undefined);
  return showQuantity(value.value, value.unit, { plusMinus: value.plusMinus });
}

function sourcesOf(book: Book, computation: Computation): string {
  if ('formula' in computation) return citeSource(book, computation.source);
  const { sources } = calculations[computation.calculation] ?? { sources: [] };
  return sources.map((id) => citeSource(book, id)).join('; ');
}

/** How a figure came about: the formula or calculation, the numbers put in, its ± and the sources. */
export function explainFigure(book: Book, fact: string, values: Values): string | undefined {
  const figure = values[fact];
  const computation = book.computations.find((one) => factsSetBy(one).includes(fact));
  if (!computation || !isFigure(figure)) return undefined;
  const inputs = Object.entries(computation.with).map(
    ([key, operand]) => `${key} = ${explainOperand(operand, values)}`,
  );
  const how = 'formula' in computation ? computation.formula : `the calculation "${computation.calculation}"`;
  const most = figure.biggest ? ` Most of the ± comes from ${nameOfFact(book, figure.biggest)}.` : '';
  const result = showQuantity(figure.value, figure.unit, { plusMinus: figure.plusMinus });
  return `${computation.about}: ${result}, by ${how} with ${inputs.join(', ')}.${most} Source: ${sourcesOf(book, computation)}.`;
}
