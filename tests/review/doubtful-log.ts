import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { forged, newFolder, whole } from '../journal/damaged-demo.ts';
import { demoFileOf } from './demo-logs.ts';
import { demoLog } from './edited-log.ts';

/** Readings in a demo batch that a mentor's checks stop at. */
export const doubtful = { 'oil-before-charge': 62, 'conv-temperature': 27, 'settle-hours': 5, blank: 0.7 };

interface Line {
  event: { type: string; question?: string; answer?: { kind: string; value?: number } };
}

/** The clean demo batch as a whole journal in a folder of its own, with other readings where it was asked last. */
export function doubtfulLog(name = 'clean-first-batch', readings: Record<string, number> = doubtful): string {
  const lines = readFileSync(demoFileOf(name), 'utf8').trimEnd().split('\n');
  for (const [question, value] of Object.entries(readings)) {
    const index = demoLog(name).findLastIndex(
      ({ event }) => event.type === 'AnswerGiven' && event.question === question,
    );
    const line = JSON.parse(lines[index] ?? '{}') as Line;
    if (line.event?.answer?.kind !== 'quantity') throw new Error(`${name} has no reading "${question}"`);
    line.event.answer.value = value;
    lines[index] = JSON.stringify(line);
  }
  const file = join(newFolder(), `${name}.ndjson`);
  writeFileSync(file, whole(forged(lines)));
  return file;
}
