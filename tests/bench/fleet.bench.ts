import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { afterAll, bench, describe } from 'vitest';
import { goThrough } from '../../src/commands/review-folder.ts';
import { journalsIn } from '../../src/journal/folder.ts';
import { eachLine } from '../../src/journal/stream.ts';
import { generateLogs } from '../fleet/generate-logs.ts';
import { book } from '../rulebook/cases.ts';

/** FLEET_LOGS=1000 before the command for a shorter look. */
const logs = Number(process.env.FLEET_LOGS ?? 10_000);
/** Over fewer journals the compiler is still warming up to the code, which is half of the time measured. */
const fewestToJudge = 1000;
/** One pass over two gigabytes is long enough to time. */
const once = { time: 0, iterations: 1, warmupTime: 0, warmupIterations: 0 } as const;

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const folder = mkdtempSync(join(tmpdir(), 'batchside-fleet-'));
const { records, bytes } = generateLogs(folder, logs, 20260302);
const files = journalsIn(folder);
console.log(`${logs} journals, ${records} records, ${(bytes / 1e6).toFixed(0)} MB`);

// Ten thousand files take their time to go.
afterAll(() => rmSync(folder, { recursive: true, force: true }), 300_000);

/** Seconds of work: a machine that does other things besides does not count. */
function secondsSince(begun: NodeJS.CpuUsage): number {
  const { user, system } = process.cpuUsage(begun);
  return (user + system) / 1e6;
}

function parseOnly(): void {
  for (const file of files) eachLine(file, (line) => void JSON.parse(line));
}

/** Heap in use, collected, when the last row of so many journals has been handed on. */
async function heapAfter(count: number): Promise<number> {
  const some = files.slice(0, count);
  let taken = 0;
  let used = 0;
  await goThrough(book, some, false, async () => {
    taken += 1;
    if (taken < some.length) return;
    collect();
    used = process.memoryUsage().heapUsed;
  });
  return used;
}

const tenth = Math.ceil(logs / 10);
const [small, large] = [await heapAfter(tenth), await heapAfter(logs)];
const grown = ((large - small) / (logs - tenth)).toFixed(0);
console.log(
  `heap after ${tenth} journals ${(small / 1e6).toFixed(1)} MB, after ${logs} ${(large / 1e6).toFixed(1)} MB: ${grown} bytes a journal`,
);

// The floor reads the same bytes in the same way and parses them; the summary may cost as much again, not more.
describe(`${logs} journals side by side`, () => {
  const took = { floor: 0, summary: 0 };
  bench(
    'JSON.parse of every line alone',
    () => {
      const begun = process.cpuUsage();
      parseOnly();
      took.floor = secondsSince(begun);
    },
    once,
  );
  bench(
    'rows and trends',
    async () => {
      const begun = process.cpuUsage();
      await goThrough(book, files, false, async () => undefined);
      took.summary = secondsSince(begun);
      const ratio = took.floor / took.summary;
      const [bare, full] = [took.floor.toFixed(1), took.summary.toFixed(1)];
      console.log(`${bare} s bare, ${full} s in full: ${ratio.toFixed(2)} of the speed of JSON.parse`);
      if (logs >= fewestToJudge && ratio < 0.5)
        throw new Error('slower than half the speed of JSON.parse over the same bytes');
    },
    once,
  );
});
