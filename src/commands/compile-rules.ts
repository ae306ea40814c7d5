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

/** Checks the rule files of a checkout and gives the book as JSON, so that a start need not read YAML. */
export async function compileRules(root: string): Promise<string> {
  const { files, hash } = readRuleFiles(join(root, 'rules'));
  return JSON.stringify(withoutRemarks(loadRules(files, hash).book));
}
