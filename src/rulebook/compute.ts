import { calculate } from '../chemistry/calculate.ts';
import { calculations } from '../chemistry/catalogue.ts';
import { propagate } from '../quantity/uncertainty.ts';
import { convert, convertSpread, isUnitId, type UnitId } from '../quantity/units.ts';
import { type Book, factsSetBy } from './book.ts';
import type { Plain } from './condition.ts';
import { type Evaluation, type FactTable, type Figure, isFigure } from './evaluation.ts';
import { compileFormula } from './formula.ts';
import { limitFacts, over } from './limit-facts.ts';
import type { CalculationUse, Computation, Formula, Operand } from './rule-schema.ts';

type Values = Record<string, Plain | Figure | undefined>;
type Input = Figure | number | string;
type Computed = Pick<Evaluation, 'figures' | 'refused'>;

const compiled = new Map<string, ReturnType<typeof compileFormula>>();

function inputFrom(operand: Operand, values: Values): Input | undefined {
  if (typeof operand === 'number') return operand;
  if (typeof operand === 'object' && 'text' in operand) return operand.text;
  const fact = typeof operand === 'string' ? operand : operand.fact;
  const value = values[fact];
  if (value === undefined) return typeof operand === 'object' ? operand.else : undefined;
  if (isFigure(value) || typeof value === 'number' || typeof value === 'string') return value;
  return typeof value === 'boolean' ? (value ? 'yes' : 'no') : undefined;
}

function inputsOf(computation: Computation, values: Values): Record<string, Input> | undefined {
  const inputs: Record<string, Input> = {};
  for (const [key, operand] of Object.entries(computation.with)) {
    const value = inputFrom(operand, values);
    if (value === undefined) return undefined;
    inputs[key] = value;
  }
  return inputs;
}

function measured(input: Input | undefined): { value: number; plusMinus: number } {
  if (typeof input === 'number') return { value: input, plusMinus: 0 };
  if (typeof input === 'object') return input;
  throw new Error(`a formula takes numbers, not "${input}"`);
}

function runFormula(formula: Formula, inputs: Record<string, Input>): Record<string, Figure> {
  const names = Object.keys(inputs);
  const key = `${formula.fact}=${formula.formula}`;
  const run = compiled.get(key) ?? compileFormula(formula.formula, names);
  compiled.set(key, run);
  const outcome = propagate(
    (numbers) => run(Object.fromEntries(names.map((name, index) => [name, numbers[index] ?? Number.NaN]))),
    names.map((name) => measured(inputs[name])),
  );
  const most = Math.max(...outcome.shares);
  const biggest = most > 0 ? names[outcome.shares.indexOf(most)] : undefined;
  const operand = biggest === undefined ? undefined : formula.with[biggest];
  const figure: Figure = { value: outcome.value, unit: formula.unit, plusMinus: outcome.plusMinus };
  if (typeof operand === 'string') figure.biggest = operand;
  return { [formula.fact]: figure };
}

/** The metal that an alkali brings, where a calculation asks for the metal. */
const metalOf: Record<string, string> = { koh: 'K', naoh: 'Na' };

/** A choice id is lower case in rule files; a calculation's choices are written as chemists write them. */
function spelled(choices: readonly string[] | undefined, typed: string): string {
  const metal = metalOf[typed];
  if (metal && choices?.includes(metal)) return metal;
  return choices?.find((choice) => choice.toLowerCase() === typed.toLowerCase()) ?? typed;
}

function houseUnit(unit: string): UnitId {
  if (!isUnitId(unit)) throw new Error(`"${unit}" is no unit that we know`);
  return unit;
}

function runCalculation(use: CalculationUse, inputs: Record<string, Input>): Record<string, Figure> {
  const calculation = calculations[use.calculation];
  if (!calculation) throw new Error(`there is no calculation "${use.calculation}"`);
  const given = Object.entries(inputs).map(([key, input]) => {
    const spec = calculation.inputs[key];
    if (typeof input === 'string') return [key, { value: spelled(spec?.choices, input) }] as const;
    if (typeof input === 'number') return [key, { value: input, plusMinus: 0 }] as const;
    const unit = houseUnit(spec?.unit ?? input.unit);
    const value = convert(input.value, input.unit, unit);
    return [key, { value, plusMinus: convertSpread(input.plusMinus, input.unit, unit) }] as const;
  });
  const { result } = calculate(calculation, Object.fromEntries(given));
  const figures: Record<string, Figure> = {};
  for (const [fact, key] of Object.entries(use.gives)) {
    const outcome = result[key];
    if (!outcome) throw new Error(`the calculation "${use.calculation}" gives no "${key}"`);
    const operand = outcome.biggest === undefined ? undefined : use.with[outcome.biggest];
    figures[fact] = { value: outcome.value, unit: houseUnit(outcome.unit), plusMinus: outcome.plusMinus };
    if (typeof operand === 'string') figures[fact].biggest = operand;
  }
  return figures;
}

/** Facts that another computation may still set: their `else` is not taken before that has been tried. */
function pendingIn(waiting: readonly Computation[]): Set<string> {
  return new Set(waiting.flatMap(factsSetBy));
}

function waitsForFigure(computation: Computation, values: Values, pending: ReadonlySet<string>): boolean {
  return Object.values(computation.with).some(
    (operand) =>
      typeof operand === 'object' &&
      'fact' in operand &&
      values[operand.fact] === undefined &&
      pending.has(operand.fact),
  );
}

/** Works out every figure whose inputs are known, whatever the order of the rule files. */
export function compute(book: Book, facts: FactTable): Computed {
  const values: Values = over(limitFacts(book), { ...facts.values });
  const done: Computed = { figures: {}, refused: [] };
  let waiting = book.computations;
  for (;;) {
    const pending = pendingIn(waiting);
    const left = waiting.filter((one) => waitsForFigure(one, values, pending) || !attempt(one, values, done));
    if (left.length < waiting.length) {
      waiting = left;
      continue;
    }
    // Nothing more comes: the first that only waits for a figure takes what it has instead of it.
    const next = left.find((one) => waitsForFigure(one, values, pending) && attempt(one, values, done));
    if (!next) return done;
    waiting = left.filter((one) => one !== next);
  }
}

interface Outcome {
  figures: Record<string, Figure>;
  refusal?: string;
}

/** The last outcome of each computation: between two answers almost all inputs stay as they were. */
const lastOutcome = new WeakMap<Computation, { inputs: string; outcome: Outcome }>();

function workOut(computation: Computation, inputs: Record<string, Input>): Outcome {
  const given = JSON.stringify(inputs);
  const last = lastOutcome.get(computation);
  if (last?.inputs === given) return last.outcome;
  let outcome: Outcome;
  try {
    const run =
      'formula' in computation ? runFormula(computation, inputs) : runCalculation(computation, inputs);
    outcome = { figures: run };
  } catch (error) {
    outcome = { figures: {}, refusal: (error as Error).message };
  }
  lastOutcome.set(computation, { inputs: given, outcome });
  return outcome;
}

function attempt(computation: Computation, values: Values, done: Computed): boolean {
  const inputs = inputsOf(computation, values);
  if (!inputs) return false;
  const { figures, refusal } = workOut(computation, inputs);
  Object.assign(values, figures);
  Object.assign(done.figures, figures);
  if (refusal !== undefined) {
    for (const fact of factsSetBy(computation)) done.refused.push({ fact, says: refusal });
  }
  return true;
}
