import { statSync } from 'node:fs';
import { basename } from 'node:path';
import { safeLine } from '../conversation/safe-text.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import { problems } from '../journal/check-line.ts';
import { journalsIn } from '../journal/folder.ts';
import { type Verified, verifyJournal } from '../journal/verify.ts';
import { openBook } from './open-book.ts';
import { UsageError } from './usage-error.ts';

export interface VerifyOptions {
  json: boolean;
  /** A fingerprint that was written down, or its beginning. */
  head?: string;
  rules?: string;
}

const usage = 'Write: batchside verify LOG [--head FINGERPRINT], or batchside verify DIR';
/** Shorter ones are met by chance or made to be met. */
const fewestDigits = 16;

const unseen = [
  'A chain does not show by itself that lines were cut off the end, that the last',
  'line was changed, or that the whole file was written anew. Compare its',
  'fingerprint with one written down elsewhere: verify LOG --head FINGERPRINT',
];

const count = (number: number, one: string) => `${number} ${one}${number === 1 ? '' : 's'}`;
const showTime = (at: string) => at.slice(0, 16).replace('T', ' ');

function placeOf(line: number | undefined): string {
  return line === undefined ? '' : `line ${line}: `;
}

function problemLines({ problem, records }: Verified): string[] {
  if (!problem) return [];
  const { kind, line, says } = problem;
  const before =
    line === undefined || line === 1
      ? []
      : [`The ${count(Math.min(records, line - 1), 'line')} before it stand as they were written.`];
  return [`${placeOf(line)}${kind}: ${safeLine(says)}.`, problems[kind], ...before];
}

function signedLines({ signed, signatures, records }: Verified): string[] {
  if (!signed) return [];
  const after = count(records - signed.line, 'record');
  const which = signatures === 1 ? 'Signed' : `Signed ${signatures} times, last`;
  return [
    `${which} by ${safeLine(signed.mentor)}: ${signed.verdict}.`,
    `Line ${signed.line}, ${showTime(signed.at)} UTC; ${after} after it. Fingerprint of the signature:`,
    signed.hash,
  ];
}

function stoodLines({ records, first, last, versions, ended, retold }: Verified): string[] {
  if (first === undefined || last === undefined) return [];
  const ends = retold < records ? '' : `; the batch is ${ended ?? 'not ended'}`;
  return [
    `${count(records, 'record')} in format ${versions.join(' and ')}${ends}.`,
    `${showTime(first)} to ${showTime(last)} UTC.`,
  ];
}

function headLines({ head, headLine, records }: Verified): string[] {
  if (head === undefined) return [];
  const own = ['Fingerprint (SHA-256 of the last line):', head];
  if (headLine === undefined) return [...own, ...unseen];
  const later = headLine === records ? '' : ` ${count(records - headLine, 'record')} came after it.`;
  return [
    ...own,
    `Line ${headLine} has the fingerprint that you gave: nothing up to there was changed.${later}`,
  ];
}

/** One journal in full. */
function inFull(told: Verified): string {
  const doubts = told.doubts.map(({ kind, line, says }) => `${placeOf(line)}${kind}: ${says}.`);
  const body = told.problem
    ? problemLines(told)
    : [...stoodLines(told), ...signedLines(told), ...headLines(told)];
  const lines = [...doubts, ...body].map((line) => `  ${line}`);
  return [`${told.verdict.toUpperCase()}  ${safeLine(told.file)}`, ...lines].join('\n');
}

/** One line a journal, for a folder of them. */
function inShort(told: Verified): string {
  const [worst] = told.problem ? [told.problem] : told.doubts;
  const what =
    worst && told.verdict !== 'good'
      ? `${placeOf(worst.line)}${worst.kind}: ${safeLine(worst.says)}`
      : `${count(told.records, 'record')}, fingerprint ${told.head?.slice(0, fewestDigits)}`;
  return `${told.verdict.toUpperCase().padEnd(8)}  ${safeLine(basename(told.file))}  ${what}`;
}

function asJson(told: Verified): string {
  const { problem } = told;
  return JSON.stringify(problem ? { ...told, problem: { ...problem, means: problems[problem.kind] } } : told);
}

function verifyFolder(files: readonly string[], step: Step, json: boolean): number {
  const totals = { journals: 0, good: 0, doubtful: 0, bad: 0, records: 0 };
  for (const file of files) {
    const told = verifyJournal(file, step);
    totals.journals += 1;
    totals[told.verdict] += 1;
    totals.records += told.records;
    process.stdout.write(`${json ? asJson(told) : inShort(told)}\n`);
  }
  const { journals, good, doubtful, bad, records } = totals;
  const words = `${count(journals, 'journal')}, ${count(records, 'record')}: ${good} good, ${doubtful} doubtful, ${bad} bad.\n${unseen.join('\n')}`;
  process.stdout.write(`${json ? JSON.stringify({ totals }) : words}\n`);
  return good === journals ? 0 : 1;
}

function wantedOf(head: string | undefined): string | undefined {
  const wanted = head?.trim().toLowerCase();
  if (
    wanted === undefined ||
    (/^[0-9a-f]+$/.test(wanted) && wanted.length >= fewestDigits && wanted.length <= 64)
  )
    return wanted;
  throw new UsageError(`A fingerprint is ${fewestDigits} to 64 digits of 0-9 and a-f. ${usage}`);
}

/** The journals of a folder, or nothing when the path is that of a file. */
function journalsOf(path: string): string[] | undefined {
  try {
    return statSync(path).isDirectory() ? journalsIn(path) : undefined;
  } catch (error) {
    throw new UsageError(`${path} cannot be read (${(error as Error).message}). ${usage}`);
  }
}

/** `batchside verify LOG|DIR`: 0 when everything is good, 1 when something is doubtful or bad. */
export async function verify(words: readonly string[], options: VerifyOptions): Promise<number> {
  const [path, ...more] = words;
  if (path === undefined || more.length > 0) throw new UsageError(usage);
  const wanted = wantedOf(options.head);
  const files = journalsOf(path);
  if (files?.length === 0) throw new UsageError(`There is no journal (*.ndjson) in ${path}. ${usage}`);
  if (files && wanted !== undefined) throw new UsageError(`A fingerprint is that of one journal. ${usage}`);
  const step = makeStep(await openBook(options.rules));
  if (files) return verifyFolder(files, step, options.json);
  const told = verifyJournal(path, step, wanted);
  process.stdout.write(`${options.json ? asJson(told) : inFull(told)}\n`);
  return told.verdict === 'good' ? 0 : 1;
}
