import type { Report } from './build-report.ts';
import { cellText, filledColumns, groupsOf } from './cell.ts';
import { intro, timesNote } from './intro.ts';
import type { Section } from './section.ts';

/** Text of a log may hold any mark of Markdown or HTML; here it is only text. */
export function markdownText(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>|#~!$]/g, '\\$&')
    .replaceAll('&', '&amp;')
    .replace(/:\/\//g, ':&#8203;//')
    .replace(/^([-+]|\d+[.)])(?=\s)/, '\\$1');
}

function tableOf(report: Report, section: Section): string[] {
  const columns = filledColumns(report, section);
  return groupsOf(section).flatMap(({ head, rows }) => [
    ...(head === undefined ? [] : [`### ${markdownText(head)}`, '']),
    `| ${columns.map((column) => column.head).join(' | ')} |`,
    `| ${columns.map(() => '---').join(' | ')} |`,
    ...rows.map(
      ({ entry }) =>
        `| ${columns.map(({ field }) => markdownText(cellText(report, entry, field))).join(' | ')} |`,
    ),
    '',
  ]);
}

function sectionLines(report: Report, section: Section): string[] {
  const lead = section.lead ? [section.lead, ''] : [];
  const body = section.entries.length > 0 ? [...lead, ...tableOf(report, section)] : [section.none, ''];
  return [`## ${section.title}`, '', ...body];
}

export function toMarkdown(report: Report): string {
  const { title, sections, sources, foot } = report;
  return [
    `# ${markdownText(title)}`,
    '',
    intro,
    '',
    timesNote,
    '',
    ...sections.flatMap((section) => sectionLines(report, section)),
    '## Sources',
    '',
    ...(sources.length === 0 ? ['No source was needed.'] : []),
    ...sources.map(({ number, cite, seen }) => `${number}. ${markdownText(cite)}${seen ? ` (${seen})` : ''}`),
    '',
    '## Where this report comes from',
    '',
    ...foot.map(({ item, value }) => `- ${markdownText(item)}: ${markdownText(value)}`),
    '',
  ].join('\n');
}
