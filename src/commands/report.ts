import { existsSync, statSync, writeFileSync } from 'node:fs';
import { extname } from 'node:path';
import { safeLine } from '../conversation/safe-text.ts';
import { type Journal, numberedEvents } from '../journal/read.ts';
import { buildReport, type Report } from '../report/build-report.ts';
import { findingsOf } from '../review/findings.ts';
import { type Story, tellStory } from '../review/story.ts';
import type { Book } from '../rulebook/book.ts';
import { openBook } from './open-book.ts';
import { program } from './program.ts';
import { readWhole } from './read-log.ts';
import { UsageError } from './usage-error.ts';

export interface ReportOptions {
  log: string | undefined;
  to: string | undefined;
  /** Write over a file that is there already. */
  over: boolean;
  rules?: string;
}

type Form = 'html' | 'md' | 'csv';

const writers: Record<Form, () => Promise<(report: Report) => string>> = {
  html: async () => (await import('../report/page/to-html.tsx')).toHtml,
  md: async () => (await import('../report/markdown.ts')).toMarkdown,
  csv: async () => (await import('../report/csv.ts')).toCsv,
};

const how = 'Write: batchside report LOG --to FILE.html (or FILE.md, or FILE.csv).';

function formOf(to: string): Form {
  const ending = extname(to).slice(1).toLowerCase();
  if (to === '-') throw new UsageError(`A report goes into a file, not to the screen. ${how}`);
  if (Object.hasOwn(writers, ending)) return ending as Form;
  throw new UsageError(`The ending of ${safeLine(to)} says no form that I can write. ${how}`);
}

function storyOf(book: Book, journal: Journal): Story {
  try {
    return tellStory(book, numberedEvents(journal));
  } catch (error) {
    const why = (error as Error).message;
    throw new UsageError(
      `This log does not fit these rules: ${why}. Give the rules it was made with: --rules DIR.`,
    );
  }
}

export async function reportOf(book: Book, journal: Journal): Promise<Report> {
  const [first] = journal.records;
  if (first?.event.type !== 'BatchOpened')
    throw new UsageError(`${safeLine(journal.file)} holds no batch: its log is empty.`);
  const story = storyOf(book, journal);
  const { program: writer, rules } = first.event;
  const origin = {
    head: journal.head,
    ...(journal.torn === undefined ? {} : { torn: journal.torn }),
    writtenBy: { program: writer, rules },
    madeBy: { program, rules: book.hash },
  };
  return buildReport({ book, story, findings: findingsOf(book, story), origin });
}

function isSameFile(one: string, other: string): boolean {
  const [a, b] = [statSync(one), statSync(other)];
  return a.ino === b.ino && a.dev === b.dev;
}

function checkTarget(log: string, to: string, over: boolean): void {
  if (!existsSync(to)) return;
  if (isSameFile(log, to))
    throw new UsageError('The report would be written over the log itself. Name another file.');
  if (!over)
    throw new UsageError(
      `${safeLine(to)} is there already. Name another file, or add --over to write over it.`,
    );
}

function write(to: string, text: string, over: boolean): void {
  try {
    writeFileSync(to, text, { flag: over ? 'w' : 'wx' });
  } catch (error) {
    throw new UsageError(`${safeLine(to)} cannot be written: ${(error as Error).message}`);
  }
}

/** `batchside report LOG --to FILE`: a batch as a page, a text or a table. */
export async function report({ log, to, over, rules }: ReportOptions): Promise<number> {
  if (log === undefined || to === undefined) throw new UsageError(how);
  const form = formOf(to);
  const journal = readWhole(log);
  checkTarget(log, to, over);
  const book = await openBook(rules);
  const made = await reportOf(book, journal);
  const render = await writers[form]();
  write(to, render(made), over);
  process.stdout.write(`${safeLine(to)}: ${made.title}, ${journal.records.length} records.\n`);
  return 0;
}
