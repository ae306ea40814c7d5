import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { makeStep } from '../../src/conversation/step.ts';
import { readJournal } from '../../src/journal/read.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { doubtfulLog } from '../review/doubtful-log.ts';
import { book } from '../rulebook/cases.ts';
import { openTerminal, type TerminalOptions, type TestTerminal } from './terminal.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

function start(args: string[], options: TerminalOptions = {}): TestTerminal {
  return openTerminal({ ...options, args });
}

/** A key pressed for the question before must not answer the next; so a person waits a moment too. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 500));

const types = (file: string) => readJournal(file).records.map(({ event }) => event.type);

describe('a review on a real screen', () => {
  it.each([
    [60, 24],
    [100, 30],
  ])('is walked and signed with single keys at %i columns and %i rows', async (columns, rows) => {
    const file = doubtfulLog();
    const before = readFileSync(file, 'utf8');
    const terminal = start(['review', file], { columns, rows });
    await terminal.sees('Who reviews?');
    terminal.type('Mentor A\r');
    await terminal.sees('Review, finding 1 of');
    await settled();
    terminal.type('1');
    await terminal.sees('Review, finding 2 of');
    await settled();
    terminal.type('2');
    await terminal.sees('What do you tell the learner?');
    await settled();
    terminal.type('1 was too warm?\r');
    await terminal.sees('Review, finding 3 of');
    await settled();
    terminal.type('6');
    await terminal.sees('What is your verdict?');
    await settled();
    terminal.type('2');
    await terminal.sees('One thing that was done well?');
    terminal.type('Three flasks.\r');
    await terminal.sees('One thing to change next time?');
    terminal.type('Cool it first.\r');
    await terminal.sees('Sign it so?');
    await settled();
    terminal.type('1');
    await terminal.sees('Signed. It stands in the log');
    expect(await terminal.exits()).toBe(0);
    expect(readFileSync(file, 'utf8').startsWith(before)).toBe(true);
    expect(types(file).slice(before.split('\n').length - 1)).toEqual([
      'ReviewOpened',
      'CheckSeen',
      'CommentMade',
      'CheckSeen',
      'ReviewSigned',
    ]);
    expect(verifyJournal(file, makeStep(book)).problem).toBe(undefined);
  });

  it('is left unsigned by Ctrl-C, and keeps what was written', async () => {
    const file = doubtfulLog();
    const terminal = start(['review', file]);
    await terminal.sees('Who reviews?');
    terminal.type('Mentor A\r');
    await terminal.sees('Review, finding 1 of');
    terminal.type('comment 57: read twice?\r');
    await terminal.sees('Comment kept at record 57: read twice?');
    terminal.type('\u0003');
    expect(await terminal.exits()).toBe(0);
    expect(types(file).slice(-2)).toEqual(['ReviewOpened', 'CommentMade']);
  });

  it('is not opened twice at a time', async () => {
    const file = doubtfulLog();
    const first = start(['review', file]);
    await first.sees('Who reviews?');
    const second = start(['review', file]);
    await second.sees('is open in another window');
    expect(await second.exits()).toBe(2);
  });

  it('is shown to the learner at the next start, once, on the screen too', async () => {
    const file = doubtfulLog();
    const mentor = start(['review', file]);
    await mentor.sees('Who reviews?');
    mentor.type('Mentor A\r');
    await mentor.sees('Review, finding 1 of');
    mentor.type('comment: calm work\r');
    await mentor.sees('Comment kept: calm work');
    mentor.type('\u0003');
    await mentor.exits();
    const learner = start(['--logs', dirname(file)]);
    await learner.sees('Mentor A: calm work');
    await learner.sees('Who ');
    learner.type('\u0003');
    await learner.exits();
    expect(types(file).at(-1)).toBe('ReviewShown');
    const again = start(['--logs', dirname(file)]);
    await again.sees('goes on where it stopped');
    expect(again.text()).not.toContain('calm work');
  });
});
