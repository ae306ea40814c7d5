import { copyFileSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { demoFile, newFolder } from '../journal/damaged-demo.ts';
import { demoFileOf } from '../review/demo-logs.ts';
import { openTerminal, type TerminalOptions, type TestTerminal } from './terminal.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

function start(file: string, options: TerminalOptions = {}): TestTerminal {
  return openTerminal({ ...options, args: ['replay', file] });
}

function copied(name?: string): string {
  const file = join(newFolder(), 'b.ndjson');
  copyFileSync(name === undefined ? demoFile : demoFileOf(name), file);
  return file;
}

describe('a replay on a real screen', () => {
  it.each([
    [60, 20],
    [100, 30],
  ])('steps, goes, asks and ends at %i columns and %i rows, and writes nothing', async (columns, rows) => {
    const file = copied();
    const before = readFileSync(file);
    const terminal = start(file, { columns, rows });
    await terminal.sees('Replay, record 0 of 51');
    terminal.type('\r');
    await terminal.sees('Replay, record 1 of 51');
    await terminal.sees('Before any oil is warmed');
    for (let times = 0; times < 8 && !/HELD BY R14/.test(terminal.text()); times += 1) {
      terminal.type('warning\r');
      await new Promise((resolve) => setTimeout(resolve, 400));
    }
    await terminal.sees(/STOP R14[\s\S]*HELD BY R14/);
    terminal.type('where am I\r');
    await terminal.sees('> The rig, the place and the people');
    terminal.type('20\r');
    await terminal.sees('At record 20 of 51.');
    terminal.type('note hello\r');
    await terminal.sees('In a replay nothing is answered or changed.');
    terminal.type('end\r');
    await terminal.sees('The batch is given up and the log says so.');
    terminal.type('leave\r');
    expect(await terminal.exits()).toBe(0);
    expect(readFileSync(file)).toEqual(before);
  });

  it('takes no single key for an answer or a command', async () => {
    const file = copied();
    const terminal = start(file);
    await terminal.sees('Replay, record 0 of 51');
    terminal.type('\r');
    await terminal.sees('record 1 of 51');
    await new Promise((resolve) => setTimeout(resolve, 400));
    terminal.type('1');
    await terminal.sees('> 1');
    expect(terminal.text()).toContain('record 1 of 51');
  });

  it('plays by itself and stops at Enter', async () => {
    const terminal = start(copied());
    await terminal.sees('Replay, record 0 of 51');
    terminal.type('play 1\r');
    await terminal.sees(/record [3-9] of 51/);
    terminal.type('\r');
    await terminal.sees('Enter: the next thing');
    const stopped = /record \d+ of 51/.exec(terminal.text())?.[0];
    await new Promise((resolve) => setTimeout(resolve, 1500));
    expect(terminal.text()).toContain(stopped);
  });

  it('plays a whole log to its end, fast', async () => {
    const terminal = start(copied());
    await terminal.sees('Replay, record 0 of 51');
    terminal.type('play 10000\r');
    await terminal.sees('The log ends here.', 45_000);
  });

  it('shows a long log to its end in reasonable time, and ends at Ctrl-C', async () => {
    const file = copied('clean-first-batch');
    const before = readFileSync(file);
    const terminal = start(file, { columns: 60, rows: 20 });
    await terminal.sees('Replay, record 0 of');
    terminal.type('end\r');
    await terminal.sees('The batch is closed. Its log is complete.', 45_000);
    terminal.type('\u0003');
    expect(await terminal.exits()).toBe(0);
    expect(readFileSync(file)).toEqual(before);
  });

  it('says in one line why there is nothing to replay', async () => {
    const terminal = start('none.ndjson');
    await terminal.sees('There is no log none.ndjson.');
    expect(await terminal.exits()).toBe(2);
  });
});
