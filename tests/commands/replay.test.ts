import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { demoFile, newFolder } from '../journal/damaged-demo.ts';
import { demoFileOf, demoNames, demoText } from '../review/demo-logs.ts';
import { runProgram } from './run-program.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const inPlain = (text: string) => text.replaceAll('\u00a0', ' ');

function copied(): string {
  const file = join(newFolder(), 'b.ndjson');
  copyFileSync(demoFile, file);
  return file;
}

describe('batchside replay into a pipe', () => {
  it.each(demoNames)('prints all of %s as the live talk printed it', (name) => {
    const { code, out, error } = runProgram(['replay', demoFileOf(name)]);
    expect([code, error]).toEqual([0, '']);
    expect(out.trimStart()).toBe(inPlain(demoText(name)));
  });

  it.each([[[]], [['--plain']]])('writes nothing to the log, whatever is typed, with %j', (options) => {
    const file = copied();
    const typed = 'back\nnote this\ngive up\n1\nyes\ncomment: x\n\u0003\nchange place to outdoors\n';
    const { code, out } = runProgram(['replay', file, ...options], typed);
    expect(code).toBe(0);
    expect(out.trimStart()).toBe(inPlain(demoText('dangerous-rig-stopped')));
    expect(readFileSync(file)).toEqual(readFileSync(demoFile));
  });

  it('says the whole records of a torn log, says that it is torn, and leaves it as it is', () => {
    const file = copied();
    const bytes = readFileSync(demoFile);
    writeFileSync(file, bytes.subarray(0, bytes.length - 40));
    const { code, out, error } = runProgram(['replay', file]);
    expect(code).toBe(0);
    expect(error).toMatch(/b\.ndjson is torn \(.*\); it counts up to record 50\.\n$/);
    expect(inPlain(demoText('dangerous-rig-stopped')).startsWith(out.trimStart().trimEnd())).toBe(true);
    expect(readFileSync(file)).toEqual(bytes.subarray(0, bytes.length - 40));
  });
});

describe('what is no log to replay', () => {
  const folder = newFolder();
  const empty = join(folder, 'empty.ndjson');
  writeFileSync(empty, '');
  const other = join(folder, 'letter.ndjson');
  writeFileSync(other, 'Dear mentor,\n');
  mkdirSync(join(folder, 'logs'));

  it.each([
    ['nothing named', [], /^Say which: batchside replay LOG$/],
    ['a missing file', [join(folder, 'none.ndjson')], /^There is no log .*none\.ndjson\.$/],
    [
      'a folder',
      [join(folder, 'logs')],
      /logs is a folder; name one log in it\. Say which: batchside replay LOG$/,
    ],
    ['an empty file', [empty], /^The log .*empty\.ndjson is empty\.$/],
    ['another text', [other], /letter\.ndjson, line 1: this is not JSON/],
    // Every read of it fails, as on a broken disk.
    ['a file that cannot be read', ['/proc/self/mem'], /^The log \/proc\/self\/mem cannot be read: /],
    ['a name that would move the cursor', ['a\u001b[2Jb'], /^There is no log a\\x1b\[2Jb\.$/],
  ])('is told in one clear line: %s', (_what, args, says) => {
    const { code, out, error } = runProgram(['replay', ...args]);
    expect([code, out]).toEqual([2, '']);
    expect(error.trimEnd().split('\n')).toHaveLength(1);
    expect(error.trimEnd()).toMatch(says);
  });
});
