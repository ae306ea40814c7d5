import { join } from 'node:path';
import { loadRules } from '../rulebook/load-rules.ts';
import { readRuleFiles } from './read-rules.ts';

/** Checks the rule files of a checkout and gives the book as JSON, so that a start need not read YAML. */
export async function compileRules(root: string): Promise<string> {
  const { files, hash } = readRuleFiles(join(root, 'rules'));
  return JSON.stringify(loadRules(files, hash).book);
}
