import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { generateLogs } from './generate-logs.ts';
import { counts } from './plain-counts.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

const page = readFileSync(new URL('../../docs/fleet.md', import.meta.url), 'utf8');
const demos = fileURLToPath(new URL('../../transcripts-demo', import.meta.url));
const generated = mkdtempSync(join(tmpdir(), 'batchside-sql-'));
afterAll(() => rmSync(generated, { recursive: true, force: true }));

/** Every SQL block of the page, with the heading above it. */
function blocks(): { heading: string; sql: string }[] {
  let heading = '';
  return [...page.matchAll(/^#+ (.*)$|^```sql\n([\s\S]*?)^```$/gm)].flatMap(([, title, sql]) => {
    if (title !== undefined) heading = title;
    return sql === undefined ? [] : [{ heading, sql }];
  });
}

const isView = ({ sql }: { sql: string }) => sql.startsWith('CREATE VIEW');
const questions = blocks().filter((block) => !isView(block));

async function connect(folder: string): Promise<DuckDBConnection> {
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  for (const { sql } of blocks().filter(isView)) await connection.run(sql.replace('logs/*', `${folder}/*`));
  return connection;
}

type Cell = string | number | null;

function plain(value: unknown): Cell {
  if (typeof value === 'bigint' || typeof value === 'number') return Number(Number(value).toFixed(6));
  return typeof value === 'string' ? basename(value) : null;
}

async function answerOf(connection: DuckDBConnection, sql: string): Promise<Cell[][]> {
  const read = await connection.runAndReadAll(sql);
  return read.getRowsJS().map((row) => row.map(plain));
}

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
