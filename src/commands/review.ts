import { statSync } from 'node:fs';
import { safeLine } from '../conversation/safe-text.ts';
import type { FolderOptions } from './review-folder.ts';
import { UsageError } from './usage-error.ts';

function isFolder(path: string): boolean {
  try {
    return statSync(path).isDirectory();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT')
      throw new UsageError(`There is no log and no folder ${safeLine(path)}.`);
    throw new UsageError(`${safeLine(path)} cannot be read (${(error as Error).message}).`);
  }
}

export interface ReviewOptions extends FolderOptions {
  plain: boolean;
}

/** `batchside review LOG` walks a mentor through one log; `batchside review DIR` shows the batches side by side. */
export async function review(words: readonly string[], options: ReviewOptions): Promise<number> {
  const [path, ...more] = words;
  if (path === undefined || more.length > 0)
    throw new UsageError('Write review and one log, or one folder of logs.');
  if (isFolder(path)) {
    const { reviewFolder } = await import('./review-folder.ts');
    return reviewFolder(path, options);
  }
  const { reviewLog } = await import('./review-log.ts');
  const rules = options.rules === undefined ? {} : { rules: options.rules };
  return options.json
    ? (await import('./review-json.ts')).reviewJson(path, rules)
    : reviewLog(path, { plain: options.plain, ...rules });
}
