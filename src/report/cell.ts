import type { Report } from './build-report.ts';
import type { Entry, Field, Section } from './section.ts';
import { showTime } from './show-time.ts';

/** What stands in a cell of a table; sources as the numbers of the list at the end. */
export function cellText({ sources }: Pick<Report, 'sources'>, entry: Entry, field: Field): string {
  if (field === 'at') return entry.at === undefined ? '' : showTime(entry.at);
  if (field === 'record') return entry.record === undefined ? '' : String(entry.record);
  if (field === 'sources') {
    const numbers = (entry.sources ?? []).map((id) => sources.find((one) => one.id === id)?.number);
    return numbers.map((number) => `[${number}]`).join(' ');
  }
  return entry[field] ?? '';
}

export interface Group {
  head: string | undefined;
  /** Entries with their place in the section. */
  rows: { place: number; entry: Entry }[];
}

/** Entries under their headings; neighbours with the same heading stand together. */
export function groupsOf({ entries }: Section): Group[] {
  const groups: Group[] = [];
  for (const [place, entry] of entries.entries()) {
    const last = groups.at(-1);
    if (last && last.head === entry.group) last.rows.push({ place, entry });
    else groups.push({ head: entry.group, rows: [{ place, entry }] });
  }
  return groups;
}

/** Columns in which some entry says something; an empty one only costs width. */
export function filledColumns(
  report: Pick<Report, 'sources'>,
  { columns, entries }: Section,
): Section['columns'] {
  return columns.filter(({ field }) => entries.some((entry) => cellText(report, entry, field) !== ''));
}
