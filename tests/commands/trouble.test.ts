import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { findTrouble, type TroubleOptions } from '../../src/commands/trouble.ts';
import { UsageError } from '../../src/commands/usage-error.ts';
import { book } from '../rulebook/cases.ts';
import { runProgram } from './run-program.ts';

vi.setConfig({ testTimeout: 60_000 });

const log = new URL('../../transcripts-demo/clean-first-batch.ndjson', import.meta.url).pathname;

async function found(describe: string, more: Partial<TroubleOptions> = {}) {
  return (await findTrouble(book, { describe, findings: [], json: true, ...more })).found;
}

const refusal = (options: Partial<TroubleOptions>) =>
  found('cloudy', options).then(
    () => '',
    (error: unknown) => {
      if (!(error instanceof UsageError)) throw error;
      return error.message;
    },
  );

describe('batchside trouble --describe', () => {
  it('prints one line of JSON with exactly its six parts', () => {
    const { code, out } = runProgram([
      'trouble',
      '--describe',
      'the fuel is hazy',
      '--stage',
      'finish',
      '--json',
    ]);
    expect(code).toBe(0);
    expect(out.trim().split('\n')).toHaveLength(1);
    const printed = JSON.parse(out) as Record<string, unknown>;
    expect(Object.keys(printed)).toEqual([
      'complaint',
      'understood',
      'stops',
      'causes',
      'nextCheck',
      'settled',
    ]);
    expect(printed).toMatchObject({ complaint: 'cloudy-fuel', understood: {}, stops: [], settled: false });
    expect(printed.nextCheck).toEqual({
      finding: expect.any(String),
      gain: expect.any(Number),
      cost: expect.any(Number),
    });
  });

  it('gives every possible cause with its probability, together 1, the likeliest first', async () => {
    const { causes } = await found('the fuel is hazy', { stage: 'finish' });
    expect(causes.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    const falling = causes.map(({ probability }) => probability);
    expect(falling).toEqual([...falling].sort((one, other) => other - one));
    expect(Object.keys(causes[0] ?? {})).toEqual(['id', 'probability']);
  });

  it('says null for what it does not know, and for the check that is no longer needed', async () => {
    expect((await found('zzz qqq')).complaint).toBeNull();
    const settled = await found('thousands of ppm of soap', {
      stage: 'settle',
      findings: ['dose-recheck=high-over-5', 'conv-test=clear', 'yield=75-90', 'glycerin-volume=over-25'],
    });
    expect(settled).toMatchObject({ settled: true, nextCheck: null });
    expect(settled.causes[0]?.id).toBe('catalyst-high');
  });

  it('counts what the command line says above what the description says', async () => {
    const said = 'darker than usual, like cola';
    expect((await found(said)).understood).toMatchObject({ 'fuel-colour': 'dark-amber' });
    const typed = await found(said, { findings: ['fuel-colour=brown-black'] });
    expect(typed.understood).toMatchObject({ 'fuel-colour': 'brown-black' });
  });

  it.each([
    ['it foams while I heat it', [], 'R09-reported'],
    ['a sharp smell like paint thinner', [], 'R03'],
    ['the heater is slow to heat', [], 'R10-reported'],
    ['the oil is hazy', ['heat-behaviour=popping'], 'R09-reported'],
    ['the oil is hazy', ['element-cover=uncovered'], 'R10-reported'],
  ])('%j with %j comes with the stop %s, in full', async (said, findings, stop) => {
    const { stops } = await found(said, { findings });
    const [first] = stops.filter(({ id }) => id === stop);
    expect(first).toMatchObject({ id: stop, signal: 'DANGER' });
    expect(first?.says).toContain('Before going on: ');
    expect(first?.says).not.toContain('{');
  });

  it('has no stop for what is not dangerous', async () => {
    expect((await found('the glycerin has gone hard', { stage: 'settle' })).stops).toEqual([]);
  });

  it('takes what a log already says, and asks for none of it', async () => {
    const { understood, nextCheck } = await found('poor yield', { stage: 'settle', log });
    expect(understood).toMatchObject({ 'titr-repeat': 'agree', 'dose-recheck': 'matches' });
    expect(Object.keys(understood)).not.toContain(nextCheck?.finding);
    expect(Object.keys((await found('poor yield', { stage: 'settle' })).understood)).toEqual([]);
  });

  it('prints the same in words', () => {
    const { code, out } = runProgram(['trouble', '--describe', 'it foams while I heat it']);
    expect(code).toBe(0);
    expect(out).toMatch(/^STOP R09-reported {2}DANGER\n/);
    expect(out).toContain('Trouble: it foams, thumps or rises while it is heated');
    expect(out).toMatch(/\d+ % {2}\S/);
    expect(out).toContain('Next check: ');
  });
});

describe('what batchside trouble refuses, in one line', () => {
  it('a check that does not exist', async () => {
    expect(await refusal({ findings: ['colour=dark'] })).toBe(
      'There is no check "colour". Write --finding CHECK=CHOICE.',
    );
    expect(await refusal({ findings: ['toString=x'] })).toContain('There is no check "toString"');
    expect(await refusal({ findings: [''] })).toContain('Write --finding CHECK=CHOICE.');
  });

  it('a choice that the check lacks', async () => {
    const message = '"maybe" is no choice of the check water-test; it has none, faint, strong.';
    expect(await refusal({ findings: ['water-test=maybe'] })).toBe(message);
    expect(await refusal({ findings: ['water-test'] })).toContain('"" is no choice of the check water-test');
    expect(await refusal({ findings: ['water-test=toString'] })).toContain(
      'is no choice of the check water-test',
    );
  });

  it('a trouble stage that does not exist', async () => {
    const stages = book.diagnosis?.weighing.stages.map(({ id }) => id).join(', ');
    expect(await refusal({ stage: 'kitchen' })).toBe(
      `There is no trouble stage "kitchen"; there are ${stages}.`,
    );
  });

  it('a log that is not there', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'no-log-')), 'a.ndjson');
    expect(await refusal({ log: file })).toBe(`There is no log ${file}.`);
  });

  it('a file that is no log, without a trace of the program', () => {
    const file = join(mkdtempSync(join(tmpdir(), 'no-log-')), 'a.ndjson');
    writeFileSync(file, 'not a log\n');
    const { code, out, error } = runProgram(['trouble', '--describe', 'cloudy', '--log', file, '--json']);
    expect(code).not.toBe(0);
    expect(out).toBe('');
    expect(error).toContain(file);
    expect(error).not.toMatch(/\n\s+at /);
  });

  it('with exit code 2 from the shell', () => {
    const { code, out, error } = runProgram(['trouble', '--describe', 'cloudy', '--finding', 'colour=dark']);
    expect([code, out, error]).toEqual([
      2,
      '',
      'There is no check "colour". Write --finding CHECK=CHOICE.\n',
    ]);
  });
});
