import { showQuantity } from '../quantity/show.ts';
import type { Book } from './book.ts';
import type { Decisions } from './rule-schema.ts';

export interface CoveredRow {
  row: string;
  says: string;
  /** Ids of the rules that decide it. */
  rules: string[];
  /** Why no rule does. */
  leftOut?: string;
}

function rowsDecidedBy(decides: string | string[] | undefined): string[] {
  if (decides === undefined) return [];
  return Array.isArray(decides) ? decides : [decides];
}

/** Every decision that the trade expects of a stage, with the rules that make it. */
export function coverageOf(book: Book, decisions: readonly Decisions[]): CoveredRow[] {
  const rules = [
    ...book.hazards.map(({ id, decides }) => ({ id, decides: rowsDecidedBy(decides) })),
    ...book.stages.flatMap((stage) =>
      stage.advice.map(({ id, decides }) => ({ id, decides: rowsDecidedBy(decides) })),
    ),
  ];
  const inFlow = (stage: string) => book.stages.findIndex((one) => one.stage === stage);
  return [...decisions]
    .sort((one, other) => inFlow(one.stage) - inFlow(other.stage))
    .flatMap(({ stage, rows }) =>
      Object.entries(rows).map(([id, row]) => {
        const name = `${stage}/${id}`;
        const covered: CoveredRow = {
          row: name,
          says: typeof row === 'string' ? row : row.row,
          rules: rules.filter((rule) => rule.decides.includes(name)).map((rule) => rule.id),
        };
        if (typeof row !== 'string') covered.leftOut = row['left-out'];
        return covered;
      }),
    );
}

/** What is wrong with the coverage: rows that nothing decides or both do, and rules that name no row. */
export function coverageMistakes(book: Book, decisions: readonly Decisions[]): string[] {
  const rows = coverageOf(book, decisions);
  const known = new Set(rows.map((row) => row.row));
  const named = [...book.hazards, ...book.stages.flatMap((stage) => stage.advice)];
  return [
    ...rows
      .filter((row) => row.rules.length === 0 && !row.leftOut)
      .map((row) => `no rule decides ${row.row}`),
    ...rows
      .filter((row) => row.rules.length > 0 && row.leftOut)
      .map((row) => `${row.row} is called left out, yet ${row.rules.join(', ')} decides it`),
    ...named.flatMap(({ id, decides }) =>
      rowsDecidedBy(decides)
        .filter((row) => !known.has(row))
        .map((row) => `${id} decides ${row}, which no decisions file has`),
    ),
  ];
}

/** docs/coverage.md: which rule makes each decision, and what is left out and why. */
export function coverageText(book: Book, decisions: readonly Decisions[]): string {
  const rows = coverageOf(book, decisions);
  const out = rows.filter((row) => row.leftOut);
  const lines = [
    '# Which rule makes which decision',
    '',
    'Made from the rule files by `npm run docs`; do not edit it by hand.',
    '',
    `${rows.length} decisions of the trade, ${rows.length - out.length} made by rules, ${out.length} left out with a reason;`,
    `${book.hazards.length} stops.`,
    '',
    '## Left out',
    '',
    ...(out.length > 0 ? out.map((row) => `- **${row.row}**: ${row.says} _${row.leftOut}_`) : ['Nothing.']),
    '',
    '## Stops',
    '',
    '| stop | signal | where | what must be true before going on |',
    '| --- | --- | --- | --- |',
    ...[...book.hazards]
      .sort((one, other) => one.id.localeCompare(other.id))
      .map(({ id, name, signal, stages, stop }) => {
        const where = stages === 'any' ? 'anywhere' : stages.join(', ');
        return `| ${id} ${name} | ${signal} | ${where} | ${cell(withLimits(book, stop))} |`;
      }),
  ];
  for (const stage of book.stages) {
    const here = rows.filter((row) => row.row.startsWith(`${stage.stage}/`) && !row.leftOut);
    lines.push('', `## ${stage.title} (\`${stage.stage}\`)`, '', '| decision | rule |', '| --- | --- |');
    lines.push(
      ...here.map((row) => `| ${cell(row.says)} | ${row.rules.map((rule) => `\`${rule}\``).join(', ')} |`),
    );
  }
  return `${lines.join('\n')}\n`;
}

/** Words with the figures of rules/limits put in; facts of a batch stay named. */
function withLimits(book: Book, words: string): string {
  return words.replace(/\{limit\.([a-z0-9-]+)\}/g, (whole, id: string) => {
    const limit = book.limits[id];
    return limit ? showQuantity(limit.value, limit.unit) : whole;
  });
}

function cell(text: string): string {
  return text.trim().replaceAll('|', '\\|').replace(/\s+/g, ' ');
}
