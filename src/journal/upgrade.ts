import { recordVersion } from './record-format.ts';

export type Upgrade = { record: unknown } | { newer: number } | { unversioned: true };

/** Brings a parsed line of an older version to the present one. There is only version 1 so far. */
export function upgrade(parsed: unknown): Upgrade {
  const version = typeof parsed === 'object' && parsed !== null && 'v' in parsed ? parsed.v : undefined;
  if (typeof version !== 'number') return { unversioned: true };
  if (version > recordVersion) return { newer: version };
  return { record: parsed };
}
