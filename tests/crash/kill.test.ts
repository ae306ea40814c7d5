import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { eventsOf, readJournal } from '../../src/journal/read.ts';

const program = new URL('../../dist/main.js', import.meta.url).pathname;

/** Types notes as fast as they are confirmed and kills the program with no warning; gives the confirmed ones. */
function talkUntilKilled(logs: string, first: number, afterConfirmed: number): Promise<number[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, '--plain', '--logs', logs], {
      stdio: ['pipe', 'pipe', 'pipe'],
    });
    const confirmed: number[] = [];
    let seen = '';
    let next = first;
    const typeNext = () => {
      child.stdin.write(`note remark ${next}\n`);
      next += 1;
    };
    child.stdin.on('error', () => undefined);
    child.stdout.on('data', (data: Buffer) => {
      seen += data.toString();
      for (const [, number] of seen.matchAll(/Noted: remark (\d+)/g)) {
        if (confirmed.includes(Number(number))) continue;
        confirmed.push(Number(number));
        if (confirmed.length >= afterConfirmed) child.kill('SIGKILL');
        else typeNext();
      }
    });
    child.on('error', reject);
    child.on('exit', () => resolve(confirmed));
    typeNext();
  });
}

it('loses no confirmed line to kill -9, round after round, and goes on in the same batch', async () => {
  const logs = mkdtempSync(join(tmpdir(), 'kill-'));
  const all: number[] = [];
  for (let round = 0; round < 6; round += 1) {
    all.push(...(await talkUntilKilled(logs, round * 100, 3 + 4 * round)));
  }
  const files = readdirSync(logs).filter((name) => name.endsWith('.ndjson'));
  expect(files).toHaveLength(1);
  const notes = eventsOf(readJournal(join(logs, files[0] ?? ''))).flatMap((event) =>
    event.type === 'NoteMade' ? [event.text] : [],
  );
  expect(notes).toEqual(expect.arrayContaining(all.map((number) => `remark ${number}`)));
  expect(all.length).toBeGreaterThanOrEqual(6 * 3);
}, 60_000);
