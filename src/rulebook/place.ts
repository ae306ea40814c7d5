import type { Loading } from './loading.ts';
import type { RuleText } from './rule-text.ts';

/** Notes where a thing of the rules is written; a second one of the same kind and id is a mistake. */
export function place(
  loading: Loading,
  kind: string,
  id: string,
  file: RuleText,
  path: readonly PropertyKey[],
): boolean {
  const key = `${kind} ${id}`;
  const before = loading.written.get(key);
  if (before) {
    const where = `${before.file.path}:${before.file.lineOf(before.path)}`;
    loading.mistakes.push(file.mistake(path, `the ${kind} "${id}" is already written at ${where}`));
    return false;
  }
  loading.written.set(key, { file, path });
  return true;
}
