import { mkdtempSync, readdirSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { book } from '../rulebook/cases.ts';
import { openTerminal, type TerminalOptions, type TestTerminal } from './terminal.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const newLogs = () => mkdtempSync(join(tmpdir(), 'pty-'));

function start(logs: string, options: TerminalOptions = {}): TestTerminal {
  return openTerminal({ ...options, args: ['--logs', logs, ...(options.args ?? [])] });
}

const ask = (index: number): string => {
  const id = book.stages[0]?.asks[index] ?? '';
  return book.questions[id]?.ask ?? id;
};
/** Long questions wrap; their first words stay together. */
const opening = (text: string) => text.split(' ').slice(0, 4).join(' ');

function events(logs: string) {
  const [file] = readdirSync(logs).filter((name) => name.endsWith('.ndjson'));
  return eventsOf(readJournal(join(logs, file ?? '')));
}

const settled = () => new Promise((resolve) => setTimeout(resolve, 400));

describe('the talk in a real terminal', () => {
  it('shows the first question, takes an answer, and shows the second', async () => {
    const terminal = start(newLogs());
    await terminal.sees(opening(ask(0)));
    terminal.type('a learner\r');
    await terminal.sees(opening(ask(1)));
  });

  it('takes a choice by one key, but not from a key still held from the question before', async () => {
    const logs = newLogs();
    const terminal = start(logs);
    await terminal.sees(opening(ask(0)));
    terminal.type('a learner\r');
    await terminal.sees(opening(ask(1)));
    await settled();
    terminal.type('1');
    await terminal.sees(opening(ask(2)));
    terminal.type('1');
    await settled();
    const given = events(logs).filter((event) => event.type === 'AnswerGiven');
    expect(given).toHaveLength(2);
  });

  it('goes on at the same question after Ctrl-C, after kill -9, and says where it is', async () => {
    const logs = newLogs();
    const first = start(logs);
    await first.sees(opening(ask(0)));
    first.type('a learner\r');
    await first.sees(opening(ask(1)));
    first.type('\u0003');
    expect(await first.exits()).toBe(0);
    const second = start(logs);
    await second.sees('goes on where it stopped');
    await second.sees(opening(ask(1)));
    second.kill('SIGKILL');
    await second.exits();
    const third = start(logs);
    await third.sees(opening(ask(1)));
    expect(readdirSync(logs).filter((name) => name.endsWith('.ndjson'))).toHaveLength(1);
  });

  it('refuses to open one batch twice at a time', async () => {
    const logs = newLogs();
    const first = start(logs);
    await first.sees(opening(ask(0)));
    const second = start(logs);
    await second.sees('open in another window');
    expect(await second.exits()).toBe(2);
  });

  it('never answers on Enter alone', async () => {
    const logs = newLogs();
    const terminal = start(logs);
    await terminal.sees(opening(ask(0)));
    terminal.type('\r\r\r');
    await settled();
    expect(events(logs).map((event) => event.type)).toEqual(['BatchOpened']);
  });

  it('shows control characters instead of obeying them, and a pasted line break is no Enter', async () => {
    const logs = newLogs();
    const terminal = start(logs);
    await terminal.sees(opening(ask(0)));
    await settled();
    terminal.type('\u001b[200~note one\r\ntwo \u202eeno\u001b[201~\r');
    await terminal.sees('Noted: one two \\u{202e}eno');
    expect(events(logs).filter((event) => event.type === 'NoteMade')).toHaveLength(1);
  });

  it.each([
    [60, 20],
    [40, 12],
    [200, 50],
  ])('stays readable at %i columns and %i rows', async (columns, rows) => {
    const terminal = start(newLogs(), { columns, rows });
    await terminal.sees(opening(ask(0)));
    terminal.type('a learner\r');
    await terminal.sees(opening(ask(1)));
    terminal.type('where am I\r');
    await terminal.sees(book.stages.at(-1)?.title ?? '');
  });

  it('survives a resize in the middle of typing', async () => {
    const terminal = start(newLogs());
    await terminal.sees(opening(ask(0)));
    terminal.type('a lear');
    await terminal.sees('> a lear');
    terminal.resize(60, 20);
    terminal.type('ner\r');
    await terminal.sees(opening(ask(1)));
  });

  it('uses no colour when NO_COLOR is set and still shows what is typed', async () => {
    const terminal = start(newLogs(), { env: { NO_COLOR: '1' } });
    await terminal.sees(opening(ask(0)));
    terminal.type('note plain');
    await terminal.sees('> note plain');
  });

  it('speaks plain lines on a terminal that can do no more', async () => {
    const terminal = start(newLogs(), { env: { TERM: 'dumb' } });
    await terminal.sees(ask(0).slice(0, 30));
    terminal.type('a learner\r');
    await terminal.sees(opening(ask(1)));
  });
});
