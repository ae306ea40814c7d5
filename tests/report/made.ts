import type { EventBody } from '../../src/conversation/events.ts';
import { type Numbered, numberedEvents, readJournal } from '../../src/journal/read.ts';
import { buildReport, type Report } from '../../src/report/build-report.ts';
import { type Finding, findingsOf } from '../../src/review/findings.ts';
import { type Story, tellStory } from '../../src/review/story.ts';
import { book } from '../rulebook/cases.ts';

export const demos = [
  'clean-first-batch',
  'wet-oil-dried-twice',
  'high-acid-blended',
  'failed-conversion-second-stage',
  'dangerous-rig-stopped',
  'abandoned-and-resumed',
] as const;
export type Demo = (typeof demos)[number];

export const head = 'ab'.repeat(32);

export function logOf(demo: Demo): Numbered[] {
  const file = new URL(`../../transcripts-demo/${demo}.ndjson`, import.meta.url).pathname;
  return numberedEvents(readJournal(file));
}

/** A log that goes on with these events, a second apart. */
export function goingOn(log: readonly Numbered[], events: readonly EventBody[]): Numbered[] {
  const last = log.at(-1);
  const from = Date.parse(last?.event.at ?? '');
  return [
    ...log,
    ...events.map((event, index) => {
      const at = new Date(from + (index + 1) * 1000).toISOString();
      return { seq: (last?.seq ?? 0) + index + 1, event: { ...event, at } };
    }),
  ];
}

export function reportOfStory(story: Story, findings: readonly Finding[] = findingsOf(book, story)): Report {
  const origin = {
    head,
    writtenBy: { program: 'batchside demo', rules: 'demo' },
    madeBy: { program: 'batchside test', rules: book.hash },
  };
  return buildReport({ book, story, findings, origin });
}

export const reportOf = (log: readonly Numbered[]): Report => reportOfStory(tellStory(book, log));

const made = new Map<Demo, Report>();

/** The report of a demo log, made once. */
export function demoReport(demo: Demo): Report {
  const known = made.get(demo) ?? reportOf(logOf(demo));
  made.set(demo, known);
  return known;
}

export function entriesOf(report: Report, section: string) {
  const found = report.sections.find(({ id }) => id === section);
  if (!found) throw new Error(`the report has no section "${section}"`);
  return found.entries;
}
