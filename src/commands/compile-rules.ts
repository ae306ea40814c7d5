import { join } from 'node:path';
import type { Book } from '../rulebook/book.ts';
import { loadRules } from '../rulebook/load-rules.ts';
import { readRuleFiles } from './read-rules.ts';

/** Remarks on figures and sources are for whoever reads the rule files; a start need not parse them. */
function withoutRemarks(book: Book): Book {
  const limits = Object.entries(book.limits).map(([id, { is, value, unit, source }]) => [
    id,
    { id, is, value, unit, source },
  ]);
  const sources = Object.entries(book.sources).map(([id, { cite, kind, seen }]) => [
    id,
    { id, cite, kind, seen },
  ]);
  return { ...book, limits: Object.fromEntries(limits), sources: Object.fromEntries(sources) };
}

/**
 * Checks the rule files of a checkout and gives the book as JSON, so that a start need not read YAML: what a talk
 * begins with, and apart from it what only a trouble or a review asks for. The names hold together what was
 * compiled together: a program that runs for days finds its own part even after a new build.
 */
export async function compileRules(root: string): Promise<{ name: string; text: string }[]> {
  const { files, hash } = readRuleFiles(join(root, 'rules'));
  const { diagnosis, review, ...first } = withoutRemarks(loadRules(files, hash).book);
  const later = `rulebook-later-${hash.slice(0, 8)}.json`;
  return [
    { name: later, text: JSON.stringify({ diagnosis, review }) },
    { name: 'rulebook.json', text: JSON.stringify({ ...first, later }) },
  ];
}
