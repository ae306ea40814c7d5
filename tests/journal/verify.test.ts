import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { JournalWriter } from '../../src/journal/append.ts';
import { lineHash } from '../../src/journal/line-hash.ts';
import { readJournal } from '../../src/journal/read.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { book } from '../rulebook/cases.ts';
import {
  demo,
  demoFile,
  fileOf,
  forged,
  inserted,
  newFolder,
  swapped,
  whole,
  without,
} from './damaged-demo.ts';

vi.setConfig({ testTimeout: 60_000 });

const step = makeStep(book);
const verified = (lines: readonly string[]) => verifyJournal(fileOf(whole(lines)), step);

const answers = demo.flatMap((line, index) => (line.includes('"AnswerGiven"') ? [index + 1] : []));
const answer = answers[3] ?? 0;
const otherText = (line: string) => line.replace(/"text":"[^"]*"/, '"text":"something else"');

/** A record that would fit in after `after`, had nothing come since. */
function note(after: number): string {
  const { v, at } = JSON.parse(demo[after - 1] ?? '') as { v: number; at: string };
  const prev = lineHash(demo[after - 1] ?? '');
  return JSON.stringify({ v, seq: after + 1, at, prev, event: { type: 'NoteMade', text: 'slipped in' } });
}

describe('a journal as it was written', () => {
  it('is good, and its fingerprint is the SHA-256 of its last line', () => {
    const told = verified(demo);
    expect(told).toMatchObject({ verdict: 'good', records: demo.length, retold: demo.length, doubts: [] });
    expect(told.head).toBe(lineHash(demo.at(-1) ?? ''));
    expect(told.ended).toBe('abandoned');
    expect(told.head).toBe(readJournal(demoFile).head);
  });

  it('may hold any text that a maker can type', () => {
    const file = join(newFolder(), 'b.ndjson');
    const writer = JournalWriter.create(file);
    const at = '2026-03-02T08:00:00.000Z';
    writer.append({ type: 'BatchOpened', batch: 'b', program: 'test', rules: 'r', at });
    for (const text of [
      'tab\t and \r return',
      '\u202eturned',
      '\ufffd',
      '\ud800 alone',
      '\u2028',
      'é'.repeat(70_000),
    ])
      writer.append({ type: 'NoteMade', text, at });
    writer.close();
    expect(verifyJournal(file, step)).toMatchObject({ verdict: 'good', records: 7 });
  });
});

describe('the first bad line is named, and what became of it', () => {
  const last = demo.length;
  const cases: { damage: string; lines: readonly string[]; kind: string; line: number; says?: RegExp }[] = [
    { damage: 'an answer put otherwise', lines: swapped(answer, otherText), kind: 'edited', line: answer },
    {
      damage: 'the fingerprint that a line keeps',
      lines: swapped(9, (line) => line.replace(/"prev":"...../, '"prev":"00000')),
      kind: 'edited',
      line: 9,
    },
    {
      damage: 'the number of a line',
      lines: swapped(9, (line) => line.replace('"seq":9', '"seq":90')),
      kind: 'edited',
      line: 9,
      says: /record 90, and record 9 belongs here/,
    },
    {
      damage: 'the line before the last put otherwise',
      lines: swapped(last - 1, (line) => line.replace(/"at":"2026-04-15T18/, '"at":"2026-04-15T17')),
      kind: 'edited',
      line: last - 1,
      says: /unless line \d+ was changed itself/,
    },
    { damage: 'a line taken out', lines: without(12), kind: 'missing', line: 12, says: /record 12 should/ },
    {
      damage: 'several lines taken out',
      lines: without(12, 20),
      kind: 'missing',
      line: 12,
      says: /12 to 20/,
    },
    { damage: 'the beginning taken out', lines: without(1, 3), kind: 'missing', line: 1, says: /1 to 3/ },
    { damage: 'two lines changed about', lines: inserted(9, demo[10] ?? ''), kind: 'missing', line: 10 },
    {
      damage: 'a forged line put in',
      lines: inserted(12, note(12)),
      kind: 'added',
      line: 13,
      says: /came in later/,
    },
    {
      damage: 'a line written twice',
      lines: inserted(12, demo[11] ?? ''),
      kind: 'added',
      line: 13,
      says: /copy/,
    },
    {
      damage: 'an early line copied down',
      lines: inserted(30, demo[4] ?? ''),
      kind: 'added',
      line: 31,
      says: /copy of record 5/,
    },
    { damage: 'an empty line', lines: inserted(12, ''), kind: 'added', line: 13, says: /empty/ },
    {
      damage: 'half a line',
      lines: swapped(7, (line) => line.slice(0, 60)),
      kind: 'damaged',
      line: 7,
      says: /JSON/,
    },
    {
      damage: 'line ends of another system',
      lines: demo.map((line) => `${line}\r`),
      kind: 'damaged',
      line: 1,
      says: /CR LF/,
    },
    { damage: 'a line of another file', lines: inserted(12, '{"a":1}'), kind: 'not-a-record', line: 13 },
    {
      damage: 'a version that never was',
      lines: swapped(5, (line) => line.replace(/"v":\d/, '"v":0')),
      kind: 'not-a-record',
      line: 5,
    },
    {
      damage: 'a newer version',
      lines: swapped(5, (line) => line.replace(/"v":\d/, '"v":3')),
      kind: 'newer',
      line: 5,
      says: /newer Batchside \(format 3\)/,
    },
    {
      damage: 'an event that there is not',
      lines: swapped(answer, (line) => line.replace('AnswerGiven', 'AnswerInvented')),
      kind: 'not-valid',
      line: answer,
    },
    {
      damage: 'a field that there is not',
      lines: swapped(answer, (line) => line.replace('"text"', '"extra":1,"text"')),
      kind: 'not-valid',
      line: answer,
      says: /extra/,
    },
    {
      damage: 'a question that there is not, in a well made chain',
      lines: forged(swapped(answer, (line) => line.replace(/"question":"[^"]*"/, '"question":"no-such"'))),
      kind: 'no-talk',
      line: answer,
      says: /no-such/,
    },
    {
      damage: 'a well made chain without its beginning',
      lines: forged(without(1)),
      kind: 'no-talk',
      line: 1,
      says: /begins with BatchOpened/,
    },
    {
      damage: 'a batch in a batch',
      lines: forged([...demo, ...demo]),
      kind: 'no-talk',
      line: last + 1,
      says: /twice/,
    },
  ];
  it.each(cases)('$damage: $kind', ({ lines, kind, line, says }) => {
    const told = verified(lines);
    expect(told.verdict).toBe('bad');
    expect(told.problem).toMatchObject({ kind, line });
    if (says) expect(told.problem?.says).toMatch(says);
    expect(told.head).toBeUndefined();
  });

  it('bytes that are no text: damaged', () => {
    const bytes = Buffer.from(whole(demo));
    bytes[bytes.indexOf('"text":"') + 8] = 0xff;
    const told = verifyJournal(fileOf(bytes), step);
    expect(told.problem).toMatchObject({ kind: 'damaged', says: expect.stringContaining('UTF-8') });
  });

  it('a line without end: no journal', () => {
    const told = verifyJournal(fileOf(Buffer.alloc((1 << 24) + 100_000, 'x')), step);
    expect(told.problem).toMatchObject({ kind: 'not-a-record', line: 1 });
  });

  it('any single byte changed, but in the last line, does not go by', () => {
    const bytes = Buffer.from(whole(demo.slice(0, 8)));
    const lastLine = bytes.length - Buffer.byteLength(demo[7] ?? '') - 1;
    for (let place = 0; place < lastLine; place += 17) {
      const changed = Buffer.from(bytes);
      changed[place] = changed[place] === 0x37 ? 0x38 : 0x37;
      expect(verifyJournal(fileOf(changed), step).verdict, `byte ${place}`).toBe('bad');
    }
  });
});

describe('what is no damage and yet to be known', () => {
  it('a torn end, wherever the last line was cut', () => {
    const text = whole([...demo.slice(0, 4), note(4).replace('slipped in', 'é€😀')]);
    const bytes = Buffer.from(text);
    const lastLine = Buffer.byteLength(whole(demo.slice(0, 4)));
    for (let length = lastLine + 1; length < bytes.length; length += 1) {
      const told = verifyJournal(fileOf(bytes.subarray(0, length)), step);
      expect(told).toMatchObject({
        verdict: 'doubtful',
        records: 4,
        doubts: [{ kind: 'torn-end', line: 5 }],
      });
    }
  });

  it('a clock that went back, by how much and how often', () => {
    const at = (seq: number, time: string) =>
      (demo[seq - 1] ?? '').replace(/"at":"[^"]*"/, `"at":"2026-04-10T${time}Z"`);
    const times = ['18:00:00', '18:10:00.500', '18:10:00', '17:45:00', '18:20:00'];
    const told = verified(forged(times.map((time, index) => at(index + 1, time))));
    expect(told.verdict).toBe('doubtful');
    expect(told.doubts).toMatchObject([{ kind: 'clock-back', line: 3 }]);
    expect(told.doubts[0]?.says).toMatch(/up to 25 min, and once more/);
  });

  it('an empty file', () => {
    expect(verifyJournal(fileOf(''), step)).toMatchObject({
      verdict: 'doubtful',
      doubts: [{ kind: 'empty' }],
    });
  });
});

describe('what the chain alone cannot show', () => {
  const head = lineHash(demo.at(-1) ?? '');

  it('is a cut tail: only a fingerprint written down elsewhere does', () => {
    const file = fileOf(whole(demo.slice(0, -3)));
    expect(verifyJournal(file, step).verdict).toBe('good');
    expect(verifyJournal(file, step, head).problem).toMatchObject({ kind: 'not-the-same' });
  });

  it('is a file written anew', () => {
    const file = fileOf(whole(forged(swapped(answer, otherText))));
    expect(verifyJournal(file, step).verdict).toBe('good');
    expect(verifyJournal(file, step, head).problem).toMatchObject({ kind: 'not-the-same' });
  });

  it('finds the line that had the fingerprint when more was written since', () => {
    const earlier = lineHash(demo[19] ?? '').slice(0, 16);
    expect(verifyJournal(fileOf(whole(demo)), step, earlier)).toMatchObject({
      verdict: 'good',
      headLine: 20,
    });
  });
});

describe('a review', () => {
  const at = '2026-05-01T10:00:00.000Z';
  const review: TalkEvent[] = [
    { type: 'ReviewOpened', mentor: 'jo', program: 'test', rules: 'r', at },
    { type: 'ReviewSigned', mentor: 'jo', verdict: 'alone-with-this', well: 'w', change: 'c', found: [], at },
  ];

  function reviewed(): string {
    const file = fileOf(whole(demo));
    const writer = JournalWriter.resume(readJournal(file));
    for (const event of review) writer.append(event);
    writer.close();
    return file;
  }

  it('stands in the chain, and the fingerprint of its signature is given', () => {
    const file = reviewed();
    const told = verifyJournal(file, step);
    expect(told).toMatchObject({
      verdict: 'good',
      signatures: 1,
      signed: { line: demo.length + 2, mentor: 'jo' },
    });
    expect(told.signed?.hash).toBe(told.head);
    const changed = readFileSync(file, 'utf8').replace('"mentor":"jo"', '"mentor":"al"');
    expect(verifyJournal(fileOf(changed), step).problem).toMatchObject({
      kind: 'edited',
      line: demo.length + 1,
    });
  });
});
