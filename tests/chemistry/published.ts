import type { PublishedCheck } from './published-check.ts';
import { fuelChecks } from './published-fuel.ts';
import { heatChecks } from './published-heat.ts';
import { methanolChecks } from './published-methanol.ts';
import { titrationChecks } from './published-titration.ts';

/**
 * Our figures against published ones. What was worked out by ourselves is no published value and is checked
 * in the test of its subject instead.
 */
export const publishedChecks: readonly PublishedCheck[] = [
  ...titrationChecks,
  ...methanolChecks,
  ...heatChecks,
  ...fuelChecks,
];
