import { mkdirSync, readdirSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { asJournalError } from './append.ts';

export const journalEnding = '.ndjson';

/** The user's data folder as the platform has it: XDG on Linux, Application Support on macOS, AppData on Windows. */
export function defaultFolder(environment: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  const home = homedir();
  if (platform === 'win32')
    return join(environment.LOCALAPPDATA ?? join(home, 'AppData', 'Local'), 'batchside', 'logs');
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'batchside', 'logs');
  // The specification tells to pass over a relative XDG_DATA_HOME.
  const data = environment.XDG_DATA_HOME?.startsWith('/')
    ? environment.XDG_DATA_HOME
    : join(home, '.local', 'share');
  return join(data, 'batchside', 'logs');
}

/** @throws JournalError  when the folder cannot be made */
export function makeFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
  } catch (error) {
    throw asJournalError(folder, error);
  }
}

/** Of one day the tenth batch comes after the second. */
const byNumber = new Intl.Collator('en', { numeric: true }).compare;

/** The journals in a folder, newest name last: names begin with the date. */
export function journalsIn(folder: string): string[] {
  return readdirSync(folder)
    .filter((name) => name.endsWith(journalEnding))
    .sort(byNumber)
    .map((name) => join(folder, name));
}
