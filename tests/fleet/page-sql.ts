import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type DuckDBConnection, DuckDBInstance } from '@duckdb/node-api';

const page = readFileSync(new URL('../../docs/fleet.md', import.meta.url), 'utf8');

/** Every SQL block of docs/fleet.md, with the heading above it. */
function blocks(): { heading: string; sql: string }[] {
  let heading = '';
  return [...page.matchAll(/^#+ (.*)$|^```sql\n([\s\S]*?)^```$/gm)].flatMap(([, title, sql]) => {
    if (title !== undefined) heading = title;
    return sql === undefined ? [] : [{ heading, sql }];
  });
}

const isView = ({ sql }: { sql: string }) => sql.startsWith('CREATE VIEW');
export const questions = blocks().filter((block) => !isView(block));

/** A database with the views of the page over a folder of journals. */
export async function connect(folder: string): Promise<DuckDBConnection> {
  const connection = await (await DuckDBInstance.create(':memory:')).connect();
  for (const { sql } of blocks().filter(isView)) await connection.run(sql.replace('logs/*', `${folder}/*`));
  return connection;
}

export type Cell = string | number | null;

/** A value as it can be compared: a number to six digits, of a path its last part. */
export function plain(value: unknown): Cell {
  if (typeof value === 'bigint' || typeof value === 'number') return Number(Number(value).toFixed(6));
  return typeof value === 'string' ? basename(value) : null;
}

export async function answerOf(connection: DuckDBConnection, sql: string): Promise<Cell[][]> {
  const read = await connection.runAndReadAll(sql);
  return read.getRowsJS().map((row) => row.map(plain));
}
