import { readdirSync, readFileSync } from 'node:fs';

export const demoFolder = new URL('../../transcripts-demo/', import.meta.url).pathname;

/** Every recorded batch, by name. */
export const demoNames = readdirSync(demoFolder)
  .filter((name) => name.endsWith('.ndjson'))
  .map((name) => name.slice(0, -'.ndjson'.length))
  .sort();

export const demoFileOf = (name: string): string => `${demoFolder}${name}.ndjson`;

/** What the live talk printed when it was recorded. */
export const demoText = (name: string): string => readFileSync(`${demoFolder}${name}.txt`, 'utf8');
