import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { Difference } from '../../src/review/audit.ts';
import { demo, demoFile, fileOf, forged, newFolder, whole } from '../journal/damaged-demo.ts';
import { demoFileOf } from '../review/demo-logs.ts';
import { runProgram } from './run-program.ts';

// A machine under load is slow, not wrong; a folder of rules is checked anew, which takes seconds.
vi.setConfig({ testTimeout: 120_000 });

const rules = new URL('../../rules', import.meta.url).pathname;

/** A copy of the rules in which one text stands in place of another, once. */
function rulesWith(file: string, was: string | RegExp, is: string): string {
  const folder = join(newFolder(), 'rules');
  cpSync(rules, folder, { recursive: true });
  const path = join(folder, file);
  const text = readFileSync(path, 'utf8');
  const changed = text.replace(was, is);
  if (changed === text) throw new Error(`${file} has no ${was}`);
  writeFileSync(path, changed);
  return folder;
}

describe('batchside audit', () => {
  it('finds nothing under the rules of the program, and says what it compared', () => {
    const { code, out } = runProgram(['audit', demoFile]);
    expect(code).toBe(0);
    expect(out).toMatch(
      /^Under these rules every stop, advice, figure, question and way on would be the same\./,
    );
    expect(out).toContain('Wording and the length of waits are not compared.');
  });

  it('finds nothing in a copy of the rules with other words, and writes nothing', () => {
    const before = readFileSync(demoFile);
    const other = rulesWith('hazards/people.yaml', 'Move outdoors under a', 'Go outdoors under a');
    const { code, out } = runProgram(['audit', demoFile, '--rules', other, '--json']);
    expect([code, JSON.parse(out)]).toEqual([0, { log: demoFile, differences: [] }]);
    expect(readFileSync(demoFile)).toEqual(before);
  });

  it('names a changed threshold by what it does, where, and why, and exits with 1', () => {
    const limit = /(id: conversion-temperature-min\n.*\n\s+value: )20/;
    const other = rulesWith('limits/conversion.yaml', limit, '$124');
    const log = demoFileOf('clean-first-batch');
    const { code, out } = runProgram(['audit', log, '--rules', other]);
    expect(code).toBe(1);
    const lines = out.trimEnd().split('\n');
    expect(lines).toHaveLength(6);
    expect(lines[0]).toBe('2 differences under these rules:');
    expect(lines[1]).toMatch(
      /^record \d+, 2026-03-\d\d \d\d:\d\d, conversion: advice check-at-the-right-temperature: then held, today does not hold/,
    );
    expect(lines[2]).toMatch(/^ {4}then: .* is at least 20 °C .*, met$/);
    expect(lines[3]).toMatch(/^ {4}today: .* is at least 24 °C .*, not met$/);
    expect(lines[4]).toContain('advice check-a-little-off: then did not hold, today holds');
  });

  it('gives the same as JSON, one line', () => {
    const other = rulesWith(
      'hazards/people.yaml',
      /(name: living-space\n(?:.*\n)*?.*safe-when: \{ fact: place, operator: in, value: \[)outdoors/,
      '$1attached-garage, outdoors',
    );
    const { code, out, error } = runProgram(['audit', demoFile, '--rules', other, '--json']);
    expect([code, error]).toEqual([1, '']);
    expect(out.trimEnd().split('\n')).toHaveLength(1);
    const { log, differences } = JSON.parse(out) as { log: string; differences: Difference[] };
    expect(log).toBe(demoFile);
    expect(Object.keys(differences[0] ?? {}).sort()).toEqual(
      ['at', 'id', 'kind', 'now', 'record', 'stage', 'times', 'was', 'why'].sort(),
    );
    expect(differences.map(({ kind, id }) => `${kind} ${id}`)).toContain('stop R14');
  });

  it.each([
    ['nothing named', [], /^Say which: batchside audit LOG/],
    ['a missing log', ['none.ndjson'], /^There is no log none\.ndjson\.$/],
    ['a folder', ['/tmp'], /^\/tmp is a folder; name one log in it\./],
    ['missing rules', [demoFile, '--rules', '/none'], /^the rules in \/none cannot be read/],
  ])('tells in one clear line: %s', (_what, args, says) => {
    const { code, out, error } = runProgram(['audit', ...args]);
    expect([code, out]).toEqual([2, '']);
    expect(error.trimEnd()).toMatch(says);
    expect(error.trimEnd().split('\n')).toHaveLength(1);
  });

  it('shows what a forged log says, and lets it neither move the cursor nor forge a line', () => {
    const nasty = 'advice:x\nrecord 1, all is well\u001b[2J\u202e';
    const lines = demo.map((line) => {
      const record = JSON.parse(line) as { event: { type: string; outcome?: { true: string[] } } };
      if (record.event.type === 'RulesEvaluated') record.event.outcome?.true.push(nasty, 'constructor:x');
      return JSON.stringify(record);
    });
    const { code, out } = runProgram(['audit', fileOf(whole(forged(lines)))]);
    expect(code).toBe(1);
    expect(out).toContain('\\nrecord 1, all is well\\x1b[2J\\u{202e}');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not reach the terminal
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
    expect(out).not.toMatch(/^record 1, all/m);
    expect(out).not.toContain('constructor');
  });
});
