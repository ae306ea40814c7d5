import { once } from 'node:events';
import { basename } from 'node:path';
import { safeLine } from '../conversation/safe-text.ts';
import { journalEnding, journalsIn } from '../journal/folder.ts';
import { JournalError } from '../journal/journal-error.ts';
import { eachRecord } from '../journal/stream.ts';
import { type Ends, endsOf } from '../review/batch-end.ts';
import type { BatchRow } from '../review/batch-row.ts';
import { Copies } from '../review/copies.ts';
import { batchLines, type FindingCounts, tableHead, trendLines, wrapped } from '../review/folder-lines.ts';
import { RowBuilder } from '../review/summary.ts';
import { type Trend, Trends } from '../review/trends.ts';
import type { Book } from '../rulebook/book.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

export interface FolderOptions {
  json: boolean;
  /** Runs the checks of a review over every journal too; slow, because each is folded. */
  findings: boolean;
  rules?: string;
}

export interface FolderTaken {
  trends: Trend[];
  /** Journals that were counted, and what is wrong with the others. */
  counted: number;
  bad: { file: string; says: string }[];
  /** Batches whose measured numbers are those of an earlier one. */
  copies: { batch: string; of: string }[];
}

/** One journal in one pass, in memory that does not grow with it. @throws JournalError */
export function rowOf(file: string, ends: Ends): BatchRow {
  const builder = new RowBuilder(ends);
  eachRecord(file, ({ at, event }) => builder.take(at, event));
  return builder.row();
}

async function findingCounts(book: Book, file: string): Promise<FindingCounts> {
  const [{ numberedEvents, readJournal }, { findingsOf }, { tellStory }] = await Promise.all([
    import('../journal/read.ts'),
    import('../review/findings.ts'),
    import('../review/story.ts'),
  ]);
  const log = numberedEvents(readJournal(file));
  const counts: Record<string, number> = {};
  try {
    for (const { signal } of findingsOf(book, tellStory(book, log)))
      counts[signal] = (counts[signal] ?? 0) + 1;
  } catch (error) {
    // A log of other rules may ask what these do not know.
    throw new JournalError(file, `cannot be gone through with these rules (${(error as Error).message})`);
  }
  return counts;
}

type TakeRow = (row: BatchRow, file: string, findings?: FindingCounts) => Promise<void>;

/**
 * Goes through the journals of a folder one by one. Each row is handed on and let go; of a batch only the numbers of
 * its trends are kept. A journal that cannot be read is named and the others are still counted.
 */
export async function goThrough(
  book: Book,
  files: readonly string[],
  withFindings: boolean,
  take: TakeRow,
): Promise<FolderTaken> {
  const ends = endsOf(book);
  const trends = new Trends(book.stages.map(({ stage }) => stage));
  const copies = new Copies();
  const bad: FolderTaken['bad'] = [];
  for (const [index, file] of files.entries()) {
    try {
      const row = rowOf(file, ends);
      await take(row, file, withFindings ? await findingCounts(book, file) : undefined);
      trends.add(row, index);
      copies.add(row, index);
    } catch (error) {
      if (!(error instanceof JournalError)) throw error;
      bad.push({ file, says: error.message });
    }
  }
  const name = (index: number) => nameOf(files[index] ?? '');
  const alike = copies.all().map(({ first, second }) => ({ batch: name(second), of: name(first) }));
  return { trends: trends.drawn(name), counted: files.length - bad.length, bad, copies: alike };
}

const nameOf = (file: string) => basename(file, journalEnding);

/** Waits for a slow reader, so that lines not yet taken do not pile up. */
async function put(text: string): Promise<void> {
  if (!process.stdout.write(text)) await once(process.stdout, 'drain');
}

async function asText(book: Book, files: readonly string[], withFindings: boolean): Promise<FolderTaken> {
  await put(`${tableHead.join('\n')}\n`);
  const taken = await goThrough(book, files, withFindings, (row, file, findings) =>
    put(`${batchLines(row, nameOf(file), findings).join('\n')}\n`),
  );
  const { trends, counted, bad, copies } = taken;
  const left = bad.length === 0 ? '' : `, ${bad.length} not (below)`;
  const badLines = bad.flatMap(({ says }) => wrapped(`Not counted: ${safeLine(says)}`, ''));
  const lines = [
    ...trendLines(trends),
    '',
    ...copies.flatMap(({ batch, of }) =>
      wrapped(`WARNING: ${batch} has the very numbers of ${of}. Were they read, or remembered?`, ''),
    ),
    `${counted} of ${files.length} journals counted${left}.`,
    ...badLines,
  ];
  await put(`${lines.join('\n')}\n`);
  return taken;
}

/** The same in full; written as it comes, so that a large folder needs no large memory. */
async function asJson(book: Book, files: readonly string[], withFindings: boolean): Promise<FolderTaken> {
  let opening = '{"batches":[\n';
  const taken = await goThrough(book, files, withFindings, async (row, file, findings) => {
    const before = opening;
    opening = ',\n';
    await put(before + JSON.stringify({ file: basename(file), ...row, ...(findings ? { findings } : {}) }));
  });
  const { trends, counted, bad, copies } = taken;
  const start = opening === ',\n' ? '\n' : opening;
  await put(
    `${start}],"trends":${JSON.stringify(trends)},"copies":${JSON.stringify(copies)},"counted":${counted},"bad":${JSON.stringify(bad)}}\n`,
  );
  return taken;
}

/** `batchside review DIR`: one row a batch, and how the batches change. Gives 1 when a journal could not be read. */
export async function reviewFolder(folder: string, options: FolderOptions): Promise<number> {
  const files = journalsIn(folder);
  if (files.length === 0)
    throw new UsageError(`There are no journals (*${journalEnding}) in ${safeLine(folder)}.`);
  const book = await openBook(options.rules);
  const { bad } = await (options.json ? asJson : asText)(book, files, options.findings);
  return bad.length === 0 ? 0 : 1;
}
