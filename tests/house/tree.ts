import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '');

const NOT_OURS = new Set(['.git', 'node_modules', 'dist', 'coverage']);

/** Every file that is or would be committed; in a copy without git, every file that is not made by a tool. */
export function treeFiles(): string[] {
  const args = ['ls-files', '-z', '--cached', '--others', '--exclude-standard'];
  try {
    const listed = execFileSync('git', args, {
      cwd: ROOT,
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    return listed.split('\0').filter((file) => file !== '' && isFile(file));
  } catch {
    return walk('');
  }
}

export function read(file: string): string {
  return readFileSync(path.join(ROOT, file), 'utf8');
}

// A file deleted but not yet committed is still listed.
function isFile(file: string): boolean {
  return statSync(path.join(ROOT, file), { throwIfNoEntry: false })?.isFile() ?? false;
}

function walk(folder: string): string[] {
  return readdirSync(path.join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    if (folder === '' && NOT_OURS.has(entry.name)) return [];
    const file = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? walk(file) : [file];
  });
}
