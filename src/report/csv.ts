import { unitOf } from '../quantity/units.ts';
import type { Report } from './build-report.ts';
import type { Entry } from './section.ts';

const heads = [
  'section',
  'group',
  'item',
  'value',
  'unit',
  'plusMinus',
  'shown',
  'against',
  'verdict',
  'says',
  'source',
  'time',
  'record',
] as const;

type Row = Partial<Record<(typeof heads)[number], string>>;

const isNumber = /^-?\d+(\.\d+)?(e[+-]?\d+)?$/;

/** A spreadsheet takes these for the start of a formula, and a log may hold anything. */
const startsFormula = /^[=+\-@\t\r]/;

/** RFC 4180: quoted where needed, quotes doubled. A text that could be taken for a formula gets an apostrophe before it. */
export function csvField(text: string): string {
  const tame = startsFormula.test(text) && !isNumber.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
}

function rowOf(section: string, entry: Entry, cited: (id: string) => string): Row {
  const { measured } = entry;
  const number = measured
    ? {
        value: String(measured.value),
        unit: unitOf(measured.unit).shown[1],
        plusMinus: String(measured.plusMinus),
      }
    : { value: entry.value };
  return {
    section,
    ...number,
    group: entry.group ?? '',
    item: entry.item,
    shown: entry.value,
    against: entry.against ?? '',
    verdict: entry.verdict ?? '',
    says: entry.says ?? '',
    source: (entry.sources ?? []).map(cited).join('; '),
    time: entry.at ?? '',
    record: entry.record === undefined ? '' : String(entry.record),
  };
}

/** The whole report as one table, a fact a row; UTF-8 without a byte order mark, lines ended by CR LF. */
export function toCsv({ sections, sources, foot }: Report): string {
  const cited = (id: string) => sources.find((one) => one.id === id)?.id ?? id;
  const rows: Row[] = [
    ...sections.flatMap(({ id, entries }) => entries.map((entry) => rowOf(id, entry, cited))),
    ...sources.map(({ id, cite, seen }) => ({
      section: 'sources',
      item: id,
      value: cite,
      shown: cite,
      says: seen,
    })),
    ...foot.map((entry) => rowOf('origin', entry, cited)),
  ];
  const lines = rows.map((row) => heads.map((head) => csvField(row[head] ?? '')).join(','));
  return `${[heads.join(','), ...lines].join('\r\n')}\r\n`;
}
