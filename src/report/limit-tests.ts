import { showQuantity } from '../quantity/show.ts';
import { hasVisited, visitsOf } from '../review/visits.ts';
import type { Book } from '../rulebook/book.ts';
import { leavesOf, type Operator } from '../rulebook/condition.ts';
import { rootsOf } from '../rulebook/roots.ts';
import { adviceKey } from '../rulebook/rule-keys.ts';
import type { Limit } from '../rulebook/rule-schema.ts';
import { factEntry, rowName, type Told } from './naming.ts';
import type { Entry, Measured, Section } from './section.ts';

interface Comparison {
  fact: string;
  limit: Limit;
  bound: 'max' | 'min';
  stage: string;
  /** The limit itself is over the line already. */
  strict: boolean;
}

const strictOn: Record<Comparison['bound'], readonly Operator[]> = {
  max: ['lessThan', 'greaterThanInclusive'],
  min: ['greaterThan', 'lessThanInclusive'],
};

// How cold a thermometer's log may read is a check of the reading, not of the fuel.
const notOfTheFuel = ['log-temperature-min'];

function boundOf(limit: string): Comparison['bound'] | undefined {
  if (notOfTheFuel.includes(limit)) return undefined;
  return limit.endsWith('-max') ? 'max' : limit.endsWith('-min') ? 'min' : undefined;
}

/** What the advice of a stage compares with a highest or a lowest allowed value, each pair once. */
function comparisonsIn(book: Book, stage: string, counts: (advice: string) => boolean): Comparison[] {
  const found = new Map<string, Comparison>();
  const advice = book.stages.find((one) => one.stage === stage)?.advice ?? [];
  for (const leaf of advice.filter(({ id }) => counts(id)).flatMap(({ when }) => leavesOf(when))) {
    const other = typeof leaf.value === 'object' && !Array.isArray(leaf.value) ? leaf.value.fact : '';
    const limit = other.startsWith('limit.') ? book.limits[other.slice('limit.'.length)] : undefined;
    const bound = limit && boundOf(limit.id);
    if (!limit || !bound) continue;
    const key = `${leaf.fact} ${limit.id}`;
    const strict = strictOn[bound].includes(leaf.operator) || found.get(key)?.strict === true;
    found.set(key, { fact: leaf.fact, limit, bound, strict, stage });
  }
  return [...found.values()];
}

/** In the store only the rule that applies counts: which share of diesel it is judged by hangs on the winter. */
function allComparisons({ book, story }: Told): Comparison[] {
  const holding = visitsOf(story, 'store').at(-1)?.holding ?? [];
  return [
    ...comparisonsIn(book, 'test', () => true),
    ...comparisonsIn(book, 'store', (id) => holding.includes(adviceKey(id))),
  ];
}

// 0.6 less 0.5 is not quite 0.1 to the machine.
const roundingNoise = 1e-9;

export type Verdict = 'pass' | 'fail' | 'too close to call';

export function judged(
  { value, plusMinus }: Pick<Measured, 'value' | 'plusMinus'>,
  { limit, bound, strict }: Pick<Comparison, 'bound' | 'strict'> & { limit: Pick<Limit, 'value'> },
): Verdict {
  const room = bound === 'max' ? limit.value - value : value - limit.value;
  if (Math.abs(room) < plusMinus * (1 - roundingNoise)) return 'too close to call';
  if (room === 0) return strict ? 'fail' : 'pass';
  return room > 0 ? 'pass' : 'fail';
}

function groupOf({ fact, stage }: Comparison): string {
  if (stage === 'store') return 'For the store';
  return fact.startsWith('lab-') ? 'By a laboratory' : 'By the maker';
}

function testEntry(told: Told, comparison: Comparison): Entry | undefined {
  const { fact, limit, bound } = comparison;
  const side =
    bound === 'max'
      ? comparison.strict
        ? 'less than'
        : 'at most'
      : comparison.strict
        ? 'more than'
        : 'at least';
  const shared = {
    group: groupOf(comparison),
    against: `${side} ${showQuantity(limit.value, limit.unit)}`,
    sources: [limit.source],
  };
  const entry = factEntry(told, fact);
  if (entry?.measured) return { ...entry, ...shared, verdict: judged(entry.measured, comparison) };
  const roots = rootsOf(told.book, fact).map((question) => told.story.state.answers[question]);
  const missed = roots.some((answer) => answer && answer.status !== 'known');
  return missed
    ? { item: rowName(told, fact), value: 'not known', ...shared, verdict: 'not judged' }
    : undefined;
}

export function limitSection(told: Told): Section {
  const reached = ['test', 'store'].some((stage) => hasVisited(told.story, stage));
  return {
    id: 'tests',
    title: 'Tests against their limits',
    caption: 'Test results, the limit each is judged by, and the verdict',
    lead: 'A verdict is given only where the ± does not reach over the limit. Buy the current text of a standard before you rest anything legal on it.',
    columns: [
      { field: 'item', head: 'Test' },
      { field: 'value', head: 'Result ±' },
      { field: 'against', head: 'Limit' },
      { field: 'verdict', head: 'Verdict' },
      { field: 'sources', head: 'Source of the limit' },
      { field: 'record', head: 'Record' },
    ],
    entries: reached ? allComparisons(told).flatMap((one) => testEntry(told, one) ?? []) : [],
    none: 'No fuel of this batch was tested.',
  };
}
