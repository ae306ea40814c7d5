import { safeLine } from '../conversation/safe-text.ts';
import type { Finding } from '../review/findings.ts';
import type { Story } from '../review/story.ts';
import type { Book } from '../rulebook/book.ts';
import { answerSection } from './answers.ts';
import { curveSection, type Panel, panelsOf } from './curve.ts';
import { deviationSection } from './deviations.ts';
import { doseSection } from './doses.ts';
import { glance } from './glance.ts';
import { limitSection } from './limit-tests.ts';
import { lookSection } from './looks.ts';
import { reviewSection } from './review-section.ts';
import type { Entry, Section } from './section.ts';
import { stopSection } from './stops.ts';
import { noteSection, troubleSection } from './troubles.ts';

/** Where a report comes from, for whoever wants to check it against the log. */
export interface Origin {
  /** SHA-256 of the last whole line of the journal. */
  head: string;
  /** Bytes of an unfinished last line that were set aside. */
  torn?: string;
  /** What wrote the log first, and what makes this report. */
  writtenBy: { program: string; rules: string };
  madeBy: { program: string; rules: string };
}

export interface ReportInput {
  book: Book;
  story: Story;
  findings: readonly Finding[];
  origin: Origin;
}

export interface Cited {
  number: number;
  id: string;
  cite: string;
  seen: string;
}

export interface Report {
  title: string;
  sections: Section[];
  panels: Panel[];
  /** Every source that a table names, numbered in the order they come. */
  sources: Cited[];
  foot: Entry[];
}

const seenWords: Record<string, string> = {
  'looked-up': 'a public copy was read',
  'from-memory': 'cited from memory',
  none: 'no publication behind it',
};

function sourcesOf(book: Book, sections: readonly Section[]): Cited[] {
  const ids = [
    ...new Set(sections.flatMap(({ entries }) => entries.flatMap(({ sources }) => sources ?? []))),
  ];
  return ids.map((id, index) => {
    const source = book.sources[id];
    const seen = source ? (seenWords[source.seen] ?? source.seen) : '';
    return { number: index + 1, id, cite: source?.cite ?? id, seen };
  });
}

function footOf({ story, origin }: ReportInput): Entry[] {
  const { head, torn, writtenBy, madeBy } = origin;
  return [
    { item: 'Records in the log', value: String(story.records) },
    { item: 'Head of the log (SHA-256 of its last line)', value: head },
    ...(torn === undefined
      ? []
      : [{ item: 'Set aside', value: 'an unfinished last line, as after a power cut' }]),
    { item: 'Log begun by', value: `${writtenBy.program}, rules ${writtenBy.rules}` },
    { item: 'Report made by', value: `${madeBy.program}, rules ${madeBy.rules}` },
  ];
}

/** Text of a log, of a rule pack or of a mentor: what is invisible or turns the writing round is shown, not obeyed. */
function cleanEntry(entry: Entry): Entry {
  const texts = ['group', 'item', 'value', 'against', 'verdict', 'says'] as const;
  const clean = { ...entry };
  for (const field of texts) {
    const text = entry[field];
    if (text !== undefined) clean[field] = safeLine(text);
  }
  return clean;
}

function cleanPanel(panel: Panel): Panel {
  return {
    ...panel,
    title: safeLine(panel.title),
    readings: panel.readings.map((one) => ({ ...one, label: safeLine(one.label), says: safeLine(one.says) })),
    marks: panel.marks.map((one) => ({ ...one, says: safeLine(one.says) })),
  };
}

/** All that a report says, in no form yet; the same log and rules give the same report. */
export function buildReport(input: ReportInput): Report {
  const { story } = input;
  const told = { book: story.book, story };
  const panels = panelsOf(told).map(cleanPanel);
  const sections = [
    glance(told),
    curveSection(panels),
    doseSection(told),
    limitSection(told),
    lookSection(told),
    stopSection(told),
    deviationSection(told),
    troubleSection(told),
    reviewSection(told, input.findings),
    noteSection(told),
    answerSection(told),
  ].map((section) => ({ ...section, entries: section.entries.map(cleanEntry) }));
  const sources = sourcesOf(input.book, sections).map((one) => ({
    ...one,
    cite: safeLine(one.cite),
    id: safeLine(one.id),
  }));
  return {
    title: safeLine(`Batch ${input.story.batch}`),
    sections,
    panels,
    sources,
    foot: footOf(input).map(cleanEntry),
  };
}
