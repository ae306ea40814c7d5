import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { DuckDBConnection } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { generateLogs } from './generate-logs.ts';
import { answerOf, connect, plain, questions } from './page-sql.ts';
import { counts } from './plain-counts.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const demos = fileURLToPath(new URL('../../transcripts-demo', import.meta.url));
const generated = mkdtempSync(join(tmpdir(), 'batchside-sql-'));
afterAll(() => rmSync(generated, { recursive: true, force: true }));

function linesOf(folder: string) {
  const files = readdirSync(folder).filter((file) => file.endsWith('.ndjson'));
  return files.map((file) => ({ file, lines: readFileSync(join(folder, file), 'utf8').trim().split('\n') }));
}

it('the page asks eight questions and counts each of them here', () => {
  expect(questions.map(({ heading }) => heading).sort()).toEqual(Object.keys(counts).sort());
  expect(questions).toHaveLength(8);
});

describe.each([
  ['the demo batches', demos],
  ['generated batches', generated],
])('SQL and a plain count agree over %s', (_name, folder) => {
  let connection: DuckDBConnection;
  beforeAll(async () => {
    if (folder === generated) generateLogs(generated, 20, 7);
    connection = await connect(folder);
  });

  it.each(questions)('$heading', async ({ heading, sql }) => {
    const counted = counts[heading]?.(linesOf(folder));
    const rows = counted?.map((row) => row.map(plain));
    expect(await answerOf(connection, sql)).toEqual(rows);
    // Nobody cuts a wait short in the demos; the generated batches do.
    if (folder === generated || !heading.startsWith('Which waits')) expect(rows?.length).toBeGreaterThan(0);
  });
});
