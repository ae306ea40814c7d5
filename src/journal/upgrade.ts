import { recordVersion } from './record-format.ts';

export type Upgrade = { record: unknown } | { newer: number } | { unversioned: true };

/**
 * What brings a record one version on, by the version that it has.
 * Version 2 added troubles and reviews; every record of version 1 is one of version 2.
 */
const steps: Record<number, (record: object) => object> = {
  1: (record) => ({ ...record, v: 2 }),
};

/** The versions that this program reads, oldest first. */
export const readableVersions = Array.from({ length: recordVersion }, (_none, index) => index + 1);

/** Brings a parsed line of an older version to the present one. */
export function upgrade(parsed: unknown): Upgrade {
  if (typeof parsed !== 'object' || parsed === null || !('v' in parsed)) return { unversioned: true };
  const { v: version } = parsed;
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) return { unversioned: true };
  if (version > recordVersion) return { newer: version };
  let record: object = parsed;
  for (let from = version; from < recordVersion; from += 1) record = steps[from]?.(record) ?? record;
  return { record };
}
