import { recordVersion } from './record-format.ts';

export type Upgrade = { record: unknown } | { newer: number } | { unversioned: true };

/**
 * Brings a parsed line of an older version to the present one.
 * Version 2 added troubles and reviews; every record of version 1 is one of version 2.
 */
export function upgrade(parsed: unknown): Upgrade {
  if (typeof parsed !== 'object' || parsed === null || !('v' in parsed)) return { unversioned: true };
  const { v: version } = parsed;
  if (typeof version !== 'number') return { unversioned: true };
  if (version > recordVersion) return { newer: version };
  return { record: { ...parsed, v: recordVersion } };
}
