import { factsSetBy, factsUsedBy } from './book.ts';
import { checkFigures } from './check-figures.ts';
import { type Condition, factsOf } from './condition.ts';
import type { Loading } from './loading.ts';
import type { Computation, Question, SourceRef } from './rule-schema.ts';

/** Facts a rule may look at beside answers and computed ones. */
const limitPrefix = 'limit.';
const statusPrefix = 'status.';
const minutesPrefix = 'minutes.';
const askedPrefix = 'asked.';

export class References {
  private readonly loading: Loading;
  private readonly computed: Set<string>;

  /** @param more  facts known beside answers, figures and limits */
  constructor(loading: Loading, more: readonly string[] = []) {
    this.loading = loading;
    this.computed = new Set([...loading.book.computations.flatMap(factsSetBy), ...more]);
  }

  private isFact(id: string): boolean {
    const { questions, limits } = this.loading.book;
    if (id.startsWith(limitPrefix)) return id.slice(limitPrefix.length) in limits;
    if (id.startsWith(statusPrefix)) return id.slice(statusPrefix.length) in questions;
    if (id.startsWith(askedPrefix)) return id.slice(askedPrefix.length) in questions;
    if (id.startsWith(minutesPrefix)) return id.slice(minutesPrefix.length) in questions;
    return id in questions || this.computed.has(id);
  }

  say(key: string, says: string): void {
    const written = this.loading.written.get(key);
    this.loading.mistakes.push(
      written ? written.file.mistake(written.path, says) : { file: 'rules', says: `${key}: ${says}` },
    );
  }

  facts(key: string, ids: readonly string[]): void {
    for (const id of ids) {
      if (!this.isFact(id)) this.say(key, `"${id}" is no question, computed fact or limit`);
    }
  }

  condition(key: string, condition: Condition | undefined): void {
    if (!condition) return;
    this.facts(key, factsOf(condition));
    this.choices(key, condition);
  }

  /** A choice that its question does not offer can never be answered, so the rule could never fire. */
  private choices(key: string, condition: Condition): void {
    if (!('fact' in condition)) {
      const parts = 'all' in condition ? condition.all : 'any' in condition ? condition.any : [condition.not];
      for (const part of parts) this.choices(key, part);
      return;
    }
    const question = this.loading.book.questions[condition.fact];
    const offered = question && choicesOf(question);
    if (!offered) return;
    const named = Array.isArray(condition.value) ? condition.value : [condition.value];
    for (const value of named) {
      if (typeof value !== 'object' && !offered.includes(String(value))) {
        this.say(key, `"${value}" is no choice of "${condition.fact}" (it has ${offered.join(', ')})`);
      }
    }
  }

  questions(key: string, ids: readonly string[]): void {
    for (const id of ids) {
      if (!(id in this.loading.book.questions)) this.say(key, `there is no question "${id}"`);
    }
  }

  source(key: string, source: SourceRef): void {
    const id = typeof source === 'string' ? source : source.id;
    if (!(id in this.loading.book.sources)) this.say(key, `the source "${id}" is not in sources.yaml`);
  }

  stage(key: string, id: string): void {
    if (!this.loading.order.includes(id)) this.say(key, `there is no stage "${id}" in flow.yaml`);
  }
}

function choicesOf(question: Question): string[] | undefined {
  if ('choice' in question.answer) return Object.keys(question.answer.choice);
  if ('many' in question.answer) return Object.keys(question.answer.many);
  return undefined;
}

function checkComputation(check: References, computation: Computation): void {
  const key = `computed fact ${factsSetBy(computation)[0]}`;
  check.facts(key, factsUsedBy(computation));
  if ('formula' in computation) check.source(key, computation.source);
}

function checkStages(loading: Loading, check: References): void {
  for (const stage of loading.book.stages) {
    const key = `stage ${stage.stage}`;
    check.stage(key, stage.stage);
    check.questions(key, stage.asks);
    for (const advice of stage.advice) {
      const rule = `advice ${advice.id}`;
      check.condition(rule, advice.when);
      check.source(rule, advice.source);
      check.questions(rule, advice.then?.['ask-again'] ?? []);
      if (advice.then?.go) check.stage(rule, advice.then.go);
    }
    for (const note of stage['unsafe-to-leave'] ?? []) check.condition(key, note.when);
    for (const leave of stage.leave) {
      check.condition(key, leave.when);
      if (leave.to !== 'end') check.stage(key, leave.to);
    }
  }
}

/** Every id that one rule text uses must be written somewhere; every stage of the flow must exist. */
export function checkReferences(loading: Loading): void {
  const check = new References(loading);
  for (const id of loading.order) {
    if (!loading.written.has(`stage ${id}`)) {
      loading.mistakes.push({ file: 'flow.yaml', says: `no file under stages/ describes the stage "${id}"` });
    }
  }
  checkStages(loading, check);
  for (const question of Object.values(loading.book.questions)) {
    check.condition(`question ${question.id}`, question.when);
  }
  for (const hazard of loading.book.hazards) {
    const key = `stop ${hazard.id}`;
    check.condition(key, hazard['safe-when']);
    check.condition(key, hazard.clear['safe-when']);
    for (const way of hazard.clear.go ?? []) {
      check.condition(key, way.when);
      check.stage(key, way.to);
    }
    check.questions(key, [...(hazard.asks ?? []), ...hazard.clear.ask]);
    check.source(key, hazard.source);
    if (hazard.stages !== 'any') for (const stage of hazard.stages) check.stage(key, stage);
  }
  for (const computation of loading.book.computations) checkComputation(check, computation);
  checkFigures(loading.book, (key, says) => check.say(key, says));
  for (const limit of Object.values(loading.book.limits)) check.source(`limit ${limit.id}`, limit.source);
}
