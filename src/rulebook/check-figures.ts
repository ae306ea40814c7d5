import { calculations } from '../chemistry/catalogue.ts';
import { isUnitId, sameDimension, type UnitId } from '../quantity/units.ts';
import { type Book, factsSetBy } from './book.ts';
import { type Condition, leavesOf } from './condition.ts';
import { compileFormula } from './formula.ts';
import type { CalculationUse, Computation, Operand } from './rule-schema.ts';

export type Complain = (key: string, says: string) => void;

/** The unit of every fact that is a number: answers, computed figures, limits. */
export function unitsOf(book: Book): Map<string, UnitId> {
  const units = new Map<string, UnitId>();
  for (const { id, answer } of Object.values(book.questions)) {
    if ('quantity' in answer) units.set(id, answer.quantity.unit);
    if ('duration' in answer) units.set(id, 'min');
    units.set(`minutes.${id}`, 'min');
  }
  for (const limit of Object.values(book.limits)) units.set(`limit.${limit.id}`, limit.unit);
  for (const computation of book.computations) {
    if ('formula' in computation) units.set(computation.fact, computation.unit);
    else
      for (const [fact, key] of Object.entries(computation.gives))
        setIfUnit(units, fact, outputUnit(computation, key));
  }
  return units;
}

function setIfUnit(units: Map<string, UnitId>, fact: string, unit: string | undefined): void {
  if (unit !== undefined && isUnitId(unit)) units.set(fact, unit);
}

function outputUnit(use: CalculationUse, key: string): string | undefined {
  return calculations[use.calculation]?.outputs[key]?.unit;
}

/** Numbers are compared as they stand, so both sides of a comparison must be in the same unit. */
export function checkUnits(
  key: string,
  condition: Condition,
  units: ReadonlyMap<string, UnitId>,
  complain: Complain,
): void {
  for (const leaf of leavesOf(condition)) {
    const left = units.get(leaf.fact);
    if (typeof leaf.value !== 'object' || Array.isArray(leaf.value)) {
      if (typeof leaf.value === 'number' && left === undefined && !leaf.fact.startsWith('status.')) {
        complain(key, `"${leaf.fact}" is no number, yet it is compared with ${leaf.value}`);
      }
      continue;
    }
    const right = units.get(leaf.value.fact);
    if (left !== right) {
      complain(
        key,
        `"${leaf.fact}" is in ${left ?? 'no unit'}, "${leaf.value.fact}" in ${right ?? 'no unit'}`,
      );
    }
  }
}

function unitOfOperand(operand: Operand, units: Map<string, UnitId>): UnitId | undefined {
  if (typeof operand === 'string') return units.get(operand);
  return typeof operand === 'object' && 'fact' in operand ? units.get(operand.fact) : undefined;
}

function checkCalculation(
  key: string,
  use: CalculationUse,
  units: Map<string, UnitId>,
  complain: Complain,
): void {
  const calculation = calculations[use.calculation];
  if (!calculation) {
    complain(
      key,
      `there is no calculation "${use.calculation}" (there are ${Object.keys(calculations).join(', ')})`,
    );
    return;
  }
  for (const [input, operand] of Object.entries(use.with)) {
    const spec = calculation.inputs[input];
    if (!spec) {
      complain(
        key,
        `"${use.calculation}" takes no "${input}" (it takes ${Object.keys(calculation.inputs).join(', ')})`,
      );
      continue;
    }
    const given = unitOfOperand(operand, units);
    if (given && isUnitId(spec.unit) && !sameDimension(given, spec.unit)) {
      complain(key, `"${input}" is in ${spec.unit}, which ${given} cannot be turned into`);
    }
  }
  for (const output of Object.values(use.gives)) {
    if (!(output in calculation.outputs)) {
      complain(
        key,
        `"${use.calculation}" gives no "${output}" (it gives ${Object.keys(calculation.outputs).join(', ')})`,
      );
    }
  }
}

function checkComputation(computation: Computation, units: Map<string, UnitId>, complain: Complain): void {
  const key = `computed fact ${factsSetBy(computation)[0]}`;
  if (!('formula' in computation)) {
    checkCalculation(key, computation, units, complain);
    return;
  }
  try {
    compileFormula(computation.formula, Object.keys(computation.with));
  } catch (error) {
    complain(key, (error as Error).message);
  }
}

/** Every number in the rules must be comparable, and every computation must be one that can be done. */
export function checkFigures(book: Book, complain: Complain): void {
  const units = unitsOf(book);
  for (const computation of book.computations) checkComputation(computation, units, complain);
  for (const stage of book.stages) {
    for (const advice of stage.advice) checkUnits(`advice ${advice.id}`, advice.when, units, complain);
    for (const leave of stage.leave)
      if (leave.when) checkUnits(`stage ${stage.stage}`, leave.when, units, complain);
  }
  for (const question of Object.values(book.questions)) {
    if (question.when) checkUnits(`question ${question.id}`, question.when, units, complain);
  }
  for (const hazard of book.hazards) {
    checkUnits(`stop ${hazard.id}`, hazard['safe-when'], units, complain);
    checkUnits(`stop ${hazard.id}`, hazard.clear['safe-when'], units, complain);
  }
}
