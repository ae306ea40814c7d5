import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { RuleFile } from '../rulebook/rule-text.ts';

/** Every YAML file under a rules folder, in a fixed order, and one hash over all of them. */
export function readRuleFiles(folder: string): { files: RuleFile[]; hash: string } {
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.yaml'))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
  const hash = createHash('sha256');
  const files = names.map((name) => {
    const path = relative(folder, name).split(sep).join('/');
    const text = readFileSync(name, 'utf8');
    hash.update(`${path}\0${text}\0`);
    return { path, text };
  });
  return { files, hash: hash.digest('hex') };
}
