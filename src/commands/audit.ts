import { showQuantity } from '../quantity/show.ts';
import {
  audit as auditLog,
  type Difference,
  type DifferenceKind,
  isKnownToday,
  type Today,
} from '../review/audit.ts';
import type { Book } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Condition } from '../rulebook/condition.ts';
import { evaluate } from '../rulebook/evaluate.ts';
import type { Evaluation, Occasion } from '../rulebook/evaluation.ts';
import { explainFigure, explainTrace, type Values } from '../rulebook/explain.ts';
import { limitFacts, over } from '../rulebook/limit-facts.ts';
import { traceOf } from '../rulebook/trace-of.ts';
import { openBook } from './open-book.ts';
import { readLog } from './read-log.ts';
import { withMinutes } from './session.ts';
import { weighTrouble } from './weigh-trouble.ts';

export interface AuditOptions {
  log: string | undefined;
  json: boolean;
  rules?: string;
}

const usage = 'Say which: batchside audit LOG [--rules DIR]';

function conditionOf(book: Book, kind: DifferenceKind, id: string): Condition | undefined {
  if (kind === 'stop') return book.hazards.find((hazard) => hazard.id === id)?.['safe-when'];
  if (kind === 'clearing') return book.hazards.find((hazard) => hazard.id === id)?.clear['safe-when'];
  if (kind === 'question') return book.questions[id]?.when;
  if (kind === 'way') {
    const [stage, index] = id.split(':');
    return book.stages.find((one) => one.stage === stage)?.leave[Number(index)]?.when;
  }
  return book.stages.flatMap(({ advice }) => advice).find((one) => one.id === id)?.when;
}

/** Why the rules of today say so: the condition with what met it, or the figure with its numbers put in. */
function explain(
  book: Book,
  kind: DifferenceKind,
  id: string,
  outcome: Evaluation,
  occasion: Occasion,
): string {
  const figures = { ...occasion.figures, ...outcome.figures };
  const values: Values = over(limitFacts(book), { ...occasion.facts.values, ...figures });
  if (kind === 'figure')
    return explainFigure(book, id, values) ?? 'The rules of today do not work this out here.';
  if (!isKnownToday(book, { kind, id })) return 'The rules of today have nothing of this name.';
  const condition = conditionOf(book, kind, id);
  if (!condition) return 'The rules of today set no condition for it.';
  const known = comparable(book, occasion.facts, figures);
  return traceOf(condition, known)
    .map((trace) => explainTrace(book, trace, values))
    .join('; ');
}

function todayUnder(book: Book): Today {
  return {
    book,
    evaluate: (occasion) => evaluate(book, withMinutes(occasion)),
    weigh: (trouble, occasion) => weighTrouble(book, trouble, withMinutes(occasion)),
    show: ({ value, unit, plusMinus }) => showQuantity(value, unit, { plusMinus }),
    explain: (kind, id, outcome, occasion) => explain(book, kind, id, outcome, withMinutes(occasion)),
  };
}

function lineOf({ record, at, stage, kind, id, was, now, why, times }: Difference): string {
  const often = times > 1 ? ` (${times} times)` : '';
  return `record ${record}, ${at.slice(0, 16).replace('T', ' ')}, ${stage}: ${kind} ${id} ${was} then, ${now} today${often}\n    ${why}`;
}

/** `batchside audit`: where the rules of today would have said something else. Exit code 1 if anywhere. */
export async function audit(options: AuditOptions): Promise<number> {
  const { records, journal } = readLog(options.log, usage);
  const book = await openBook(options.rules);
  const differences = await auditLog(todayUnder(book), records);
  if (options.json) process.stdout.write(`${JSON.stringify({ log: journal.file, differences })}\n`);
  else {
    const same = 'Under these rules every stop, advice, figure and question would be the same.';
    const count = `${differences.length} ${differences.length === 1 ? 'difference' : 'differences'} under these rules:`;
    const lines = differences.length === 0 ? [same] : [count, ...differences.map(lineOf)];
    process.stdout.write(`${lines.join('\n').replaceAll('\u00a0', ' ')}\n`);
  }
  return differences.length === 0 ? 0 : 1;
}
