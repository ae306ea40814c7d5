import { safeLine } from '../conversation/safe-text.ts';
import { withMinutes } from '../journal/answer-minutes.ts';
import { showQuantity } from '../quantity/show.ts';
import {
  audit as auditLog,
  type Difference,
  type Run,
  type Today,
  UnfollowableError,
} from '../review/audit.ts';
import { decisiveIn } from '../review/decisive.ts';
import { differs, type Outcome } from '../review/differences.ts';
import { type Book, factsSetBy, factsUsedBy, leavesFrom } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Leaf } from '../rulebook/condition.ts';
import { conditionsOf, evaluate } from '../rulebook/evaluate.ts';
import { figuresAfter, type Trace } from '../rulebook/evaluation.ts';
import { explainFigure, explainTrace, type Values } from '../rulebook/explain.ts';
import { limitFacts, over } from '../rulebook/limit-facts.ts';
import { leaveKey } from '../rulebook/rule-keys.ts';
import { traceOf } from '../rulebook/trace-of.ts';
import { openBook } from './open-book.ts';
import { readLog } from './read-log.ts';
import { UsageError } from './usage-error.ts';
import { weighTrouble } from './weigh-trouble.ts';

export interface AuditOptions {
  log: string | undefined;
  json: boolean;
  rules?: string;
}

const usage = 'Say which: batchside audit LOG [--rules DIR]';

const inWords = (book: Book, traces: readonly Trace[], values: Values): string =>
  traces.map((trace) => explainTrace(book, trace, values)).join('; ');

/** What was compared then of what decides today; all that decided then, where today looks at something else. */
function comparedThen(traces: readonly Trace[], decisive: readonly Leaf[]): readonly Trace[] {
  const decided = traces.filter(({ met }) => met !== undefined);
  const alike = decided.filter(({ fact, operator }) =>
    decisive.some((leaf) => leaf.fact === fact && leaf.operator === operator),
  );
  return alike.length > 0 ? alike : decided;
}

function whereTo(book: Book, key: string, stage: string): string {
  const index = leavesFrom(book, stage).findIndex((_leave, at) => leaveKey(stage, at) === key);
  const to = leavesFrom(book, stage)[index]?.to;
  return to === undefined ? '' : `the way to ${to}: `;
}

/** Why a condition comes out otherwise: how it is met today, and how it was met where the log keeps that. */
function explainCondition(book: Book, key: string, { occasion, then, now }: Run): string {
  const { stage, held, facts } = occasion;
  const figures = { ...occasion.figures, ...now.figures };
  const found = conditionsOf(book, stage, held).find((one) => one.key === key);
  if (!found) return 'The rules of today have nothing of this name here.';
  const values: Values = over(limitFacts(book), { ...facts.values, ...figures });
  const known = comparable(book, facts, figures);
  const decisive = decisiveIn(found.condition, known);
  const today = decisive.flatMap((leaf) => traceOf(leaf, known));
  const before = comparedThen(then.traces[key] ?? [], decisive);
  return [
    ...(before.length > 0 ? [`then: ${inWords(book, before, { ...values, ...then.figures })}`] : []),
    `today: ${whereTo(book, key, stage)}${inWords(book, today, values)}`,
  ].join('\n');
}

/** How a figure comes about today, with its numbers put in; or on which other figures it rests that are not the same. */
function explainWorkedOut(book: Book, fact: string, { occasion, then, now }: Run): string {
  const before = figuresAfter(occasion.figures, then);
  const figures = figuresAfter(occasion.figures, now);
  const computation = book.computations.find((one) => factsSetBy(one).includes(fact));
  const others = computation ? factsUsedBy(computation) : [];
  const changed = others.filter((other) => differs(before[other], figures[other]));
  if (changed.length > 0) return `rests on ${[...new Set(changed)].join(', ')}`;
  const values: Values = over(limitFacts(book), { ...occasion.facts.values, ...figures });
  const refused = now.refused.find((one) => one.fact === fact)?.says;
  return `today: ${explainFigure(book, fact, values) ?? refused ?? 'the rules do not work this out here.'}`;
}

function explain(book: Book, { kind, id, key }: Outcome, run: Run): string {
  if (kind === 'figure') return explainWorkedOut(book, id, run);
  return key === undefined ? 'Rules that look at it were changed.' : explainCondition(book, key, run);
}

/** The rules of a book, as an audit asks them. */
export function todayUnder(book: Book): Today {
  return {
    book,
    evaluate: (occasion) => evaluate(book, withMinutes(occasion)),
    weigh: (trouble, occasion) => weighTrouble(book, trouble, withMinutes(occasion)),
    show: ({ value, unit, plusMinus }) => showQuantity(value, unit, { plusMinus }),
    explain: (outcome, run) => explain(book, outcome, { ...run, occasion: withMinutes(run.occasion) }),
  };
}

function linesOf({ record, at, stage, kind, id, was, now, why, times }: Difference): string[] {
  const often = times > 1 ? ` (${times} times)` : '';
  const when = at.slice(0, 16).replace('T', ' ');
  const line = `record ${record}, ${when}, ${stage}: ${kind} ${id}: then ${was}, today ${now}${often}`;
  return [safeLine(line), ...why.split('\n').map((part) => `    ${safeLine(part)}`)];
}

const same =
  'Under these rules every stop, advice, figure, question and way on would be the same. ' +
  'Wording and the length of waits are not compared.';

async function differencesIn(today: Today, records: Parameters<typeof auditLog>[1]): Promise<Difference[]> {
  try {
    return await auditLog(today, records);
  } catch (error) {
    if (error instanceof UnfollowableError) throw new UsageError(error.message);
    throw error;
  }
}

/** `batchside audit`: where the rules of today would have said something else. Exit code 1 if anywhere. */
export async function audit(options: AuditOptions): Promise<number> {
  const { records, journal } = readLog(options.log, usage);
  const book = await openBook(options.rules);
  const differences = await differencesIn(todayUnder(book), records);
  if (options.json) process.stdout.write(`${JSON.stringify({ log: journal.file, differences })}\n`);
  else {
    const count = `${differences.length} ${differences.length === 1 ? 'difference' : 'differences'} under these rules:`;
    const lines = differences.length === 0 ? [same] : [count, ...differences.flatMap(linesOf)];
    process.stdout.write(`${lines.join('\n').replaceAll('\u00a0', ' ')}\n`);
  }
  return differences.length === 0 ? 0 : 1;
}
