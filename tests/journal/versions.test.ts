import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { replay } from '../../src/conversation/replay.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { JournalWriter } from '../../src/journal/append.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { recordVersion } from '../../src/journal/record-format.ts';
import { readableVersions, upgrade } from '../../src/journal/upgrade.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { book } from '../rulebook/cases.ts';
import { fileOf, whole } from './damaged-demo.ts';

const step = makeStep(book);

/** A batch that was recorded in version 1, kept as it was: an open drum over a flame, held, and given up. */
const sample = new URL('./samples/v1.ndjson', import.meta.url).pathname;
const text = readFileSync(sample, 'utf8');
const lines = text.trimEnd().split('\n');

describe('a journal of version 1', () => {
  it('is one: the sample was not written anew', () => {
    expect(lines.map((line) => line.slice(0, 6))).toEqual(lines.map(() => '{"v":1'));
  });

  it('is read as one of the present version, with nothing changed but that', () => {
    const { records } = readJournal(sample);
    const written = lines.map((line) => JSON.parse(line) as object);
    expect(records).toEqual(written.map((record) => ({ ...record, v: recordVersion })));
  });

  it('comes to the end that it came to', () => {
    const { state } = replay(step, eventsOf(readJournal(sample)));
    expect(state).toMatchObject({
      batch: 'dangerous-rig-stopped',
      ended: 'abandoned',
      path: ['rig'],
      session: 2,
    });
  });

  it('is good, and keeps its fingerprint', () => {
    const told = verifyJournal(sample, step);
    expect(told).toMatchObject({ verdict: 'good', versions: [1], records: lines.length, ended: 'abandoned' });
    expect(told.head).toBe(readJournal(sample).head);
  });

  it('goes on in the present version, in the same chain', () => {
    const file = fileOf(text);
    const writer = JournalWriter.resume(readJournal(file));
    writer.append({ type: 'NoteMade', text: 'looked at again', at: '2026-05-01T08:00:00.000Z' });
    writer.close();
    expect(readFileSync(file, 'utf8').startsWith(text)).toBe(true);
    expect(verifyJournal(file, step)).toMatchObject({
      verdict: 'good',
      versions: [1, recordVersion],
      records: lines.length + 1,
    });
  });
});

describe('versions', () => {
  it('has a kept sample of each older one', () => {
    const older = readableVersions.filter((version) => version !== recordVersion);
    for (const version of older) {
      const kept = new URL(`./samples/v${version}.ndjson`, import.meta.url);
      expect(readFileSync(kept, 'utf8').startsWith(`{"v":${version},`)).toBe(true);
    }
    expect(readableVersions.at(-1)).toBe(recordVersion);
  });

  it('a line of version 3 is refused in words that say what to do', () => {
    const newer = fileOf(whole([...lines.slice(0, 4), (lines[4] ?? '').replace('"v":1', '"v":3')]));
    expect(() => readJournal(newer)).toThrow(
      /line 5: written by a newer Batchside \(format 3\); update this one/,
    );
    expect(verifyJournal(newer, step).problem).toMatchObject({ kind: 'newer', line: 5 });
  });

  it.each([0, -1, 1.5, '1', null, undefined])('a version %s is none', (v) => {
    expect(upgrade({ v, seq: 1 })).toEqual({ unversioned: true });
  });

  it.each([null, 7, 'text', [], {}])('%j has no version', (parsed) => {
    expect(upgrade(parsed)).toEqual({ unversioned: true });
  });
});
