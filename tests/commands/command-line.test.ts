import { existsSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { JournalWriter } from '../../src/journal/append.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { runProgram } from './run-program.ts';

vi.setConfig({ testTimeout: 60_000 });

const demos = new URL('../../transcripts-demo/', import.meta.url).pathname;
const demo = `${demos}clean-first-batch.answers.yaml`;
const newFolder = () => mkdtempSync(join(tmpdir(), 'command-'));
const journalIn = (logs: string) =>
  join(logs, readdirSync(logs).find((name) => name.endsWith('.ndjson')) ?? '');

describe('a talk through a pipe', () => {
  it('asks in plain lines, takes answers, and waits at the question where the input ended', () => {
    const logs = newFolder();
    const { code, out } = runProgram(['--logs', logs], 'a learner\n1\n');
    expect(code).toBe(0);
    expect(out).toContain('Who is running this batch?');
    expect(out).toContain('-> a learner');
    expect(out).not.toContain('\u001b');
    expect(eventsOf(readJournal(journalIn(logs))).at(-1)?.type).toBe('SessionPaused');
    expect(runProgram(['--logs', logs], '').out).toContain('goes on where it stopped');
  });

  it('begins another batch with --new and opens an old one with --batch', () => {
    const logs = newFolder();
    runProgram(['--logs', logs], 'first\n');
    runProgram(['--logs', logs, '--new'], 'second\n');
    const names = readdirSync(logs).filter((name) => name.endsWith('.ndjson'));
    expect(names).toHaveLength(2);
    const [first = ''] = names.sort();
    expect(runProgram(['--logs', logs, '--batch', first.replace('.ndjson', '')], '').code).toBe(0);
  });
});

describe('taking up a batch by its name', () => {
  const copied = (name: string, edit = (text: string) => text) => {
    const logs = newFolder();
    const file = join(logs, `${name}.ndjson`);
    writeFileSync(file, edit(readFileSync(`${demos}${name}.ndjson`, 'utf8')));
    return { logs, file };
  };

  it('that has ended says so and writes nothing', () => {
    const { logs, file } = copied('clean-first-batch');
    const before = readFileSync(file, 'utf8');
    const { code, error } = runProgram(['--logs', logs, '--batch', 'clean-first-batch'], '');
    expect([code, error]).toEqual([2, expect.stringContaining('has ended')]);
    expect(readFileSync(file, 'utf8')).toBe(before);
  });

  it('to find out what went wrong opens the trouble', () => {
    const logs = newFolder();
    runProgram(['--logs', logs], 'first\n');
    const name = readdirSync(logs).find((one) => one.endsWith('.ndjson')) ?? '';
    const { out } = runProgram(['trouble', '--logs', logs, '--batch', name.replace('.ndjson', '')], '');
    expect(out).toContain('danger');
  });

  it('under rules that no longer have its questions is told, and left as it is', () => {
    const logs = newFolder();
    const writer = JournalWriter.create(join(logs, 'old.ndjson'));
    const at = '2026-03-02T08:00:00.000Z';
    writer.append({ type: 'BatchOpened', batch: 'old', program: 'p', rules: 'r', at });
    writer.append({ type: 'AnswerGiven', question: 'gone', answer: { kind: 'not-sure' }, text: 'idk', at });
    writer.close();
    const { code, error } = runProgram(['--logs', logs], '');
    expect(code).toBe(2);
    expect(error).toMatch(/old\.ndjson.*gone[\s\S]*--new begins another batch/);
    expect(runProgram(['--logs', logs, '--new'], '').code).toBe(0);
  });
});

describe('a damaged journal', () => {
  it('is named with its line, left as it is, and does not keep anybody from a new batch', () => {
    const logs = newFolder();
    const file = join(logs, '2026-03-02-1.ndjson');
    writeFileSync(file, '{"v":1,"seq":1\n');
    const { code, error } = runProgram(['--logs', logs]);
    expect(code).toBe(2);
    expect(error).toMatch(/2026-03-02-1\.ndjson, line 1: .*\n.*--new begins another batch/);
    expect(runProgram(['--logs', logs, '--new'], 'a learner\n').code).toBe(0);
  });
});

describe('prepared answers', () => {
  it('talk a whole batch through unattended, along the same path as typed ones', () => {
    const logs = newFolder();
    const { code, out } = runProgram(['--answers', demo, '--logs', logs]);
    expect(code).toBe(0);
    expect(out).toContain('The batch is closed.');
  });

  it('stop with exit code 3 at the first question that has no answer, and keep the batch', () => {
    const logs = newFolder();
    const file = join(logs, 'short.yaml');
    writeFileSync(file, 'maker: a learner\n');
    const { code, error } = runProgram(['--answers', file, '--logs', logs]);
    expect(code).toBe(3);
    expect(error).toContain('has no answer left for "experience"');
    expect(existsSync(journalIn(logs))).toBe(true);
  });

  it.each([
    ['nobody: asks this\n', 'there is no question nobody'],
    ['maker: {a: b}\n', 'a question id with an answer'],
    ['maker: [\n', 'cannot be read'],
  ])('refuse a file that holds %j', (text, says) => {
    const logs = newFolder();
    const file = join(logs, 'bad.yaml');
    writeFileSync(file, text);
    const { code, error } = runProgram(['--answers', file, '--logs', logs]);
    expect(code).toBe(2);
    expect(error).toContain(says);
    expect(error).not.toContain('    at ');
  });
});

describe('what is typed wrong on the command line', () => {
  const file = join(newFolder(), 'a-file');
  writeFileSync(file, '');
  it.each([
    [['dance'], 'There is no command "dance"'],
    [['--frobnicate'], 'frobnicate'],
    [['--batch', 'never', '--logs', newFolder()], 'there is no batch never'],
    [['--logs', join(file, 'below')], 'a-file'],
    [['--rules', '/nowhere/at/all', '--logs', newFolder()], '/nowhere/at/all'],
    [['--answers', '/nowhere.yaml', '--logs', newFolder()], '/nowhere.yaml'],
    [['--answers', demo, '--start', 'tomorrow', '--logs', newFolder()], '--start tomorrow is no time'],
  ])('%j gets one clear line and exit code 2', (args, says) => {
    const { code, error } = runProgram(args);
    expect(code).toBe(2);
    expect(error).toContain(says);
    expect(error).not.toContain('    at ');
  });

  it('says its version and how it is used', () => {
    expect(runProgram(['--version']).out).toMatch(/^batchside \d+\.\d+\.\d+\n$/);
    expect(runProgram(['--help']).out).toContain('--answers FILE');
  });
});
