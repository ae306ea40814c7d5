import { Engine, type TopLevelCondition } from 'json-rules-engine';
import { type Book, hazardsAt, leavesFrom, questionOf, stageOf } from './book.ts';
import { comparable } from './comparable.ts';
import { compute } from './compute.ts';
import { type Condition, factsOf, isLeaf, type Plain } from './condition.ts';
import type { Evaluation, FactTable, Figure, Occasion } from './evaluation.ts';
import { stillDeciding } from './relevance.ts';
import { rootsOf } from './roots.ts';
import { adviceKey, askKey, clearKey, hazardKey, leaveKey, unsafeToLeaveKey, wayKey } from './rule-keys.ts';
import { signals } from './signals.ts';
import { judge, type KnownFacts, stillMatters } from './three-valued.ts';
import { traceOf } from './trace-of.ts';

interface Keyed {
  key: string;
  condition: Condition;
}

/** Every condition that the stage has to settle now: gates of questions, advice, ways out, stops. */
export function conditionsOf(book: Book, stage: string, held: readonly string[]): Keyed[] {
  const found: Keyed[] = [];
  const hazards = [...new Set([...hazardsAt(book, stage).map((one) => one.id), ...held])];
  const asked = new Set(stageOf(book, stage).asks);
  for (const hazard of book.hazards.filter((one) => hazards.includes(one.id))) {
    found.push({ key: hazardKey(hazard.id), condition: hazard['safe-when'] });
    if (held.includes(hazard.id)) {
      found.push({ key: clearKey(hazard.id), condition: hazard.clear['safe-when'] });
      for (const [index, way] of (hazard.clear.go ?? []).entries()) {
        found.push({ key: wayKey(hazard.id, index), condition: way.when });
      }
      for (const id of hazard.clear.ask) asked.add(id);
    }
  }
  for (const id of asked) {
    const { when } = questionOf(book, id);
    if (when) found.push({ key: askKey(id), condition: when });
  }
  for (const advice of stageOf(book, stage).advice) {
    found.push({ key: adviceKey(advice.id), condition: advice.when });
  }
  for (const [index, note] of (stageOf(book, stage)['unsafe-to-leave'] ?? []).entries()) {
    found.push({ key: unsafeToLeaveKey(stage, index), condition: note.when });
  }
  leavesFrom(book, stage).forEach((leave, index) => {
    if (leave.when) found.push({ key: leaveKey(stage, index), condition: leave.when });
  });
  return found;
}

/** The engine wants a group at the top and flat facts; it never sees an undecided condition. */
async function runEngine(decided: readonly Keyed[], known: KnownFacts): Promise<Map<string, boolean>> {
  const engine = new Engine([], { pathResolver: (value) => value });
  const facts: Record<string, Plain> = {};
  for (const { key, condition } of decided) {
    const top = (isLeaf(condition) ? { all: [condition] } : condition) as TopLevelCondition;
    engine.addRule({ name: key, conditions: top, event: { type: key } });
    for (const fact of factsOf(condition)) if (known[fact] !== undefined) facts[fact] = known[fact];
  }
  // Undecided parts inside a decided group (an `any` that is met elsewhere) must not stop the run.
  for (const { condition } of decided) for (const fact of factsOf(condition)) facts[fact] ??= [];
  const run = await engine.run(facts);
  const outcomes = new Map<string, boolean>();
  for (const result of [...run.results, ...run.failureResults])
    outcomes.set(result.name, result.result === true);
  return outcomes;
}

/** The engine's last word on each condition, and the facts it was given on: most stay as they were. */
const lastWord = new WeakMap<Condition, { facts: string; met: boolean }>();

/** Runs the engine over those conditions whose facts have changed since it last judged them. */
async function runChanged(decided: readonly Keyed[], known: KnownFacts): Promise<Map<string, boolean>> {
  const outcomes = new Map<string, boolean>();
  const facts = new Map(
    decided.map(({ key, condition }) => [
      key,
      JSON.stringify(factsOf(condition).map((fact) => known[fact] ?? null)),
    ]),
  );
  const changed = decided.filter(({ key, condition }) => {
    const last = lastWord.get(condition);
    if (last === undefined || last.facts !== facts.get(key)) return true;
    outcomes.set(key, last.met);
    return false;
  });
  if (changed.length === 0) return outcomes;
  for (const [key, met] of await runEngine(changed, known)) outcomes.set(key, met);
  for (const { key, condition } of changed) {
    lastWord.set(condition, { facts: facts.get(key) ?? '', met: outcomes.get(key) === true });
  }
  return outcomes;
}

function unsafeStops(book: Book, facts: FactTable, outcome: Judged): string[] {
  const stops = book.hazards.filter((hazard) => {
    const key = hazardKey(hazard.id);
    if (outcome.true.includes(key)) return false;
    const unknown = outcome.undecided[key];
    if (!unknown) return outcome.false.includes(key);
    const roots = unknown.flatMap((fact) => rootsOf(book, fact));
    return roots.some((root) => facts.status[root] === 'not-sure' || facts.status[root] === 'skipped');
  });
  const rank = (signal: (typeof signals)[number]) => signals.indexOf(signal);
  return stops
    .sort((one, other) => rank(one.signal) - rank(other.signal) || one.id.localeCompare(other.id))
    .map((hazard) => hazard.id);
}

interface Judged {
  true: string[];
  false: string[];
  undecided: Record<string, string[]>;
}

async function judgeAll(keyed: readonly Keyed[], known: KnownFacts): Promise<Judged> {
  const decided = keyed.filter(({ condition }) => judge(condition, known) !== 'unknown');
  const outcomes = await runChanged(decided, known);
  const judged: Judged = { true: [], false: [], undecided: {} };
  for (const { key, condition } of keyed) {
    const met = outcomes.get(key);
    if (met === undefined) judged.undecided[key] = stillMatters(condition, known);
    else judged[met ? 'true' : 'false'].push(key);
  }
  return judged;
}

/** What has to be written down of the figures: those that changed. */
function changes(
  before: Occasion['figures'],
  now: Evaluation['figures'],
): Pick<Evaluation, 'figures' | 'lost'> {
  const same = (one: Figure | undefined, other: Figure) =>
    one?.value === other.value && one.plusMinus === other.plusMinus && one.unit === other.unit;
  return {
    figures: Object.fromEntries(Object.entries(now).filter(([fact, figure]) => !same(before[fact], figure))),
    lost: Object.keys(before).filter((fact) => !(fact in now)),
  };
}

/** Undecided conditions that may keep the talk from going on: ways out, and stops that belong to stages. */
function keepsWaiting(book: Book, key: string): boolean {
  if (key.startsWith('leave:')) return true;
  return book.hazards.some((hazard) => hazard.stages !== 'any' && key === hazardKey(hazard.id));
}

/** Runs the rules of one stage over the facts: figures first, then every condition that is decided. */
export async function evaluate(book: Book, occasion: Occasion): Promise<Evaluation> {
  const { stage, facts, held, explained } = occasion;
  const { figures, refused } = compute(book, facts);
  const known = comparable(book, facts, figures);
  const keyed = conditionsOf(book, stage, held);
  const judged = await judgeAll(keyed, known);
  const unsafe = unsafeStops(book, facts, judged);
  const speaking = new Set([
    ...judged.true.filter((key) => key.startsWith('advice:')),
    ...unsafe.map(hazardKey),
  ]);
  const traced = keyed.filter(({ key }) => speaking.has(key) && !explained.includes(key));
  return {
    ...changes(occasion.figures, figures),
    refused,
    true: judged.true.filter((key) => !key.startsWith('stop:')),
    undecided: Object.fromEntries(
      Object.entries(judged.undecided).filter(([key]) => keepsWaiting(book, key)),
    ),
    deciding: stillDeciding(
      book,
      stage,
      (id) => facts.status[id] !== undefined,
      Object.values(judged.undecided).flat(),
    ),
    unsafe,
    traces: Object.fromEntries(traced.map(({ key, condition }) => [key, traceOf(condition, known)])),
  };
}
