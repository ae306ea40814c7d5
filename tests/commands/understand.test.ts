import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { runProgram } from './run-program.ts';

vi.setConfig({ testTimeout: 60_000 });

function asJson(question: string, text: string): unknown {
  const { code, out } = runProgram(['understand', question, text, '--json']);
  expect(code).toBe(0);
  return JSON.parse(out);
}

describe('batchside understand', () => {
  it.each([
    ['drain-look', 'just water', { 'drain-look': 'clear-water' }],
    ['oil-volume', '150 L', { 'oil-volume': 150 }],
    ['cloud-point', '-2 C', { 'cloud-point': -2 }],
    ['same-tub', 'yes', { 'same-tub': true }],
    ['water-test-time', '2:35 pm', { 'water-test-time': '14:35' }],
    ['dispense-ready', '1, 2', { 'dispense-ready': ['rated-hose', 'drip-tray'] }],
    ['oil-id', 'cans 3 to 5', { 'oil-id': 'cans 3 to 5' }],
  ])('%s: %j is taken', (question, text, answers) => {
    expect(asJson(question, text)).toEqual({ question, answers });
  });

  it('says what is unsure, asked beside the question, or asked back', () => {
    expect(asJson('oil-volume', 'not sure')).toEqual({ question: 'oil-volume', answers: {}, unsure: true });
    expect(asJson('oil-volume', 'why')).toEqual({ question: 'oil-volume', answers: {}, request: 'why-ask' });
    const back = asJson('oil-temperature', '540 F') as { answers: object; asksBack: string };
    expect(back.answers).toEqual({});
    expect(back.asksBack).toContain('Did you mean 54');
  });

  it('shows every answer of a line that holds several, and that it is said back first', () => {
    const got = asJson('settle-temperature', '55 C and the drain gave milky') as { asksBack: string };
    expect(got).toMatchObject({ answers: { 'settle-temperature': 55, 'drain-look': 'milky' } });
    expect(got.asksBack).toContain('I understood');
  });

  it('prints the same in words', () => {
    expect(runProgram(['understand', 'oil-temperature', '130', 'F']).out).toContain(
      'oil-temperature: 130 ± 4 °F (54 ± 2 °C)',
    );
  });

  it('refuses an unknown question in one line, with exit code 2', () => {
    const { code, error } = runProgram(['understand', 'nobody', 'yes']);
    expect([code, error]).toEqual([2, 'There is no question "nobody".\n']);
    const json = runProgram(['understand', 'nobody', 'yes', '--json']);
    expect(json.code).toBe(2);
    expect(JSON.parse(json.out)).toEqual({
      question: 'nobody',
      error: { message: 'There is no question "nobody".' },
    });
    expect(runProgram(['understand', 'toString', 'yes']).code).toBe(2);
    expect(runProgram(['understand']).code).toBe(2);
  });
});

describe('prepared answers', () => {
  it('may say which gallon they mean, and are refused when they say another', () => {
    const folder = mkdtempSync(join(tmpdir(), 'gallons-'));
    const file = join(folder, 'a.answers.yaml');
    writeFileSync(file, 'gallon-kind: dry\nmaker: a learner\n');
    const { code, error } = runProgram(['--answers', file, '--logs', folder]);
    expect(code).toBe(2);
    expect(error).toContain('gallon-kind is US or imperial');
    writeFileSync(file, 'gallon-kind: imperial\nmaker: a learner\n');
    expect(runProgram(['--answers', file, '--logs', folder]).code).toBe(3);
  });
});
