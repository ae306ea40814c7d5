import { copyFileSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { runProgram } from './run-program.ts';

const demo = new URL('../../transcripts-demo/dangerous-rig-stopped.ndjson', import.meta.url).pathname;
// Each case starts the program, on a machine that may have other work.
const slow = { timeout: 30_000 };

let folder: string;
let log: string;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'report-'));
  log = join(folder, 'batch.ndjson');
  copyFileSync(demo, log);
});

const report = (...args: string[]) => runProgram(['report', ...args]);

describe('report', slow, () => {
  it.each([
    ['page.html', '<!doctype html>'],
    ['text.md', '# Batch dangerous-rig-stopped'],
    ['table.csv', 'section,group,item,value,unit,plusMinus'],
  ])('writes %s in the form that its ending says', (name, start) => {
    const file = join(folder, name);
    expect(report(log, '--to', file)).toMatchObject({
      code: 0,
      out: expect.stringContaining('51 records'),
      error: '',
    });
    expect(readFileSync(file, 'utf8').startsWith(start)).toBe(true);
  });

  it('writes over nothing unless told so', () => {
    const file = join(folder, 'kept.html');
    writeFileSync(file, 'kept');
    expect(report(log, '--to', file)).toMatchObject({ code: 2, error: expect.stringContaining('--over') });
    expect(readFileSync(file, 'utf8')).toBe('kept');
    expect(report(log, '--to', file, '--over').code).toBe(0);
    expect(readFileSync(file, 'utf8')).not.toBe('kept');
  });

  it('never writes over the log, whatever it is called', () => {
    const before = readFileSync(log, 'utf8');
    const named = join(folder, 'log.csv');
    copyFileSync(log, named);
    expect(report(named, '--to', named, '--over')).toMatchObject({
      code: 2,
      error: expect.stringContaining('the log itself'),
    });
    expect(readFileSync(named, 'utf8')).toBe(before);
  });

  it.each([
    [['--to', '-'], 'goes into a file'],
    [['--to', 'x.pdf'], 'no form that I can write'],
    [[], 'batchside report LOG --to FILE.html'],
  ])('says in one line what is wrong with %j', (args, says) => {
    const { code, error } = report(log, ...args);
    expect(code).toBe(2);
    expect(error).toContain(says);
    expect(error.trim().split('\n')).toHaveLength(1);
  });

  it('says so when there is no such log, or nothing in it', () => {
    const to = join(folder, 'none.html');
    expect(report(join(folder, 'none.ndjson'), '--to', to)).toMatchObject({
      code: 2,
      error: expect.stringContaining('cannot be read'),
    });
    const empty = join(folder, 'empty.ndjson');
    writeFileSync(empty, '');
    expect(report(empty, '--to', to)).toMatchObject({ code: 2, error: expect.stringContaining('no batch') });
    expect(report(log, '--to', join(folder, 'no', 'such', 'x.html'))).toMatchObject({
      code: 2,
      error: expect.stringContaining('cannot be written'),
    });
  });
});
