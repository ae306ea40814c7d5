import { copyFileSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { Turn } from '../../src/conversation/effects.ts';
import type { Numbered } from '../../src/journal/read.ts';
import { Playback } from '../../src/review/playback.ts';
import { ReplayTalk } from '../../src/review/replay-talk.ts';
import { book } from '../rulebook/cases.ts';
import { demoFileOf } from './demo-logs.ts';
import { demoLog } from './edited-log.ts';

vi.setConfig({ testTimeout: 120_000 });

interface Timer {
  at: number;
  then: () => void;
}

/** A replay with a clock that is moved by hand. */
class TryReplay {
  readonly turns: Turn[] = [];
  readonly talk: ReplayTalk;
  now = 0;
  timer: Timer | undefined;
  changes = 0;

  constructor(log: readonly Numbered[]) {
    this.talk = new ReplayTalk(book, log, {
      turn: (turn) => this.turns.push(turn),
      changed: () => {
        this.changes += 1;
      },
      after: (milliseconds, then) => {
        const timer = { at: this.now + milliseconds, then };
        this.timer = timer;
        return () => {
          if (this.timer === timer) this.timer = undefined;
        };
      },
    });
  }

  async say(...lines: string[]): Promise<Turn[]> {
    const from = this.turns.length;
    for (const line of lines) await this.talk.type(line);
    return this.turns.slice(from);
  }

  pass(milliseconds: number): void {
    const until = this.now + milliseconds;
    while (this.timer && this.timer.at <= until) {
      const { at, then } = this.timer;
      this.timer = undefined;
      this.now = at;
      then();
    }
    this.now = until;
  }

  get record(): number {
    return Number(/record (\d+) of/.exec(this.talk.view().heading ?? '')?.[1]);
  }
}

const rig = demoLog('dangerous-rig-stopped');
const clean = demoLog('clean-first-batch');
const texts = (turns: readonly Turn[]) => turns.map(({ text }) => text);
const spoken = (log: readonly Numbered[]) => {
  const playback = new Playback(book, log);
  return log.map(() => playback.playOne());
};

describe('stepping through a log', () => {
  it('begins before the first record, and says so', () => {
    const { talk, record } = new TryReplay(rig);
    expect(record).toBe(0);
    expect(talk.view().heading).toContain('2026-04-10 18:00 UTC');
    expect(talk.over).toBe(false);
  });

  it('gives with every Enter the next thing that was said, to the end', async () => {
    const replay = new TryReplay(rig);
    const all = spoken(rig).filter((turns) => turns.length > 0);
    for (const turns of all) expect(await replay.say('')).toEqual(turns);
    expect(texts(await replay.say(''))).toEqual(['The log ends here.']);
    expect(replay.record).toBe(rig.length);
  });

  it('shows the thing before with back, and forward again the thing after', async () => {
    const replay = new TryReplay(rig);
    const all = spoken(rig).filter((turns) => turns.length > 0);
    for (const _turns of all.slice(0, 12)) await replay.say('');
    expect(await replay.say('back')).toEqual(all[10]);
    expect(await replay.say('<')).toEqual(all[9]);
    expect(await replay.say('next')).toEqual(all[10]);
    expect(await replay.say('')).toEqual(all[11]);
  });

  it('goes back from the end through everything to the beginning', async () => {
    const replay = new TryReplay(rig);
    await replay.say('end');
    const all = spoken(rig).filter((turns) => turns.length > 0);
    for (const turns of all.slice(0, -1).reverse()) expect(await replay.say('back')).toEqual(turns);
    expect(texts(await replay.say('back'))).toEqual(['This is the beginning.']);
    expect(replay.record).toBe(0);
  });

  it('goes to a record by its number and shows what was said there last', async () => {
    const replay = new TryReplay(rig);
    const said = spoken(rig);
    for (const place of [30, 7, rig.length, 1]) {
      const [where, ...shown] = await replay.say(String(place));
      expect(where?.text).toBe(`At record ${place} of ${rig.length}.`);
      expect(shown).toEqual(said.slice(0, place).findLast((turns) => turns.length > 0));
    }
    await replay.say('99999999999999999999');
    expect(replay.record).toBe(rig.length);
    await replay.say('start');
    expect(replay.record).toBe(0);
  });

  it('shows everything on the way with end', async () => {
    const replay = new TryReplay(rig);
    expect(await replay.say('end')).toEqual(spoken(rig).flat());
    expect(texts(await replay.say('end'))).toEqual(['The log ends here.']);
  });

  it('stands, after what was said, where the next question was asked', async () => {
    const replay = new TryReplay(rig);
    await replay.say('');
    const next = rig.find(({ event }) => event.type === 'AnswerGiven')?.event;
    const question = next?.type === 'AnswerGiven' ? next.question : '';
    expect(replay.talk.view().question?.ask).toBe(book.questions[question]?.ask);
  });

  it('shows the question of the moment with its choices, and takes no key for an answer', async () => {
    const replay = new TryReplay(rig);
    await replay.say('', '', '');
    const { question } = replay.talk.view();
    expect(question?.choices.length).toBeGreaterThan(1);
    expect(question?.oneKey).toBe(false);
  });

  it('names the stops that held then', async () => {
    const replay = new TryReplay(rig);
    for (;;) {
      const turns = await replay.say('warning');
      expect(replay.record).toBeLessThan(rig.length);
      if (turns.some(({ kind }) => kind === 'stop')) break;
    }
    expect(replay.talk.view().held).not.toEqual([]);
  });
});

describe('going on to a place', () => {
  it('stops at every stop and warning in turn, and only there', async () => {
    const replay = new TryReplay(rig);
    const loud = (turn: Turn) => turn.signal !== undefined && turn.signal !== 'NOTICE';
    const wanted = spoken(rig).filter((turns) => turns.some(loud));
    expect(wanted.length).toBeGreaterThan(3);
    for (const turns of wanted) expect((await replay.say('warning')).slice(-turns.length)).toEqual(turns);
    const { record } = replay;
    expect(texts(await replay.say('warning'))).toEqual(['No further stop or warning comes.']);
    expect(replay.record).toBe(record);
  });

  it('goes on to a stage by its name or title, and says when it does not come', async () => {
    const replay = new TryReplay(clean);
    const turns = await replay.say('stage settle');
    expect(turns.at(-1)?.kind === 'stage' || turns.some(({ kind }) => kind === 'stage')).toBe(true);
    expect(replay.talk.view().stage).toBe(book.stages.find(({ stage }) => stage === 'settle')?.title);
    const there = replay.record;
    expect(texts(await replay.say('stage titrate'))).toEqual([
      'The batch does not come to that stage after this.',
    ]);
    expect(replay.record).toBe(there);
    expect(texts(await replay.say('stage zzzzqq'))[0]).toMatch(/There is no stage "zzzzqq".*settle/);
  });

  it('goes on to a time of day, over midnight too, and says when the log does not', async () => {
    const replay = new TryReplay(clean);
    const day = clean[0]?.event.at.slice(0, 10) ?? '';
    await replay.say('23:59');
    const first = clean.findIndex(({ event }) => event.at >= `${day}T23:59:00`);
    expect(replay.record).toBeGreaterThan(first);
    const at = clean[first]?.event.at ?? '';
    await replay.say(at.slice(11, 16) > '06:00' ? '6:00' : '12:00');
    expect((clean[replay.record - 1]?.event.at ?? '') > at).toBe(true);
    await replay.say('end');
    expect(texts(await replay.say('14:35'))).toEqual(['The log ends here.']);
    const short = new TryReplay(rig.slice(0, 10));
    expect(texts(await short.say('17:00'))).toEqual(['The log does not go on to 17:00.']);
    expect(short.record).toBe(0);
    expect(texts(await short.say('29:75'))).toEqual(['There is no time of day 29:75.']);
  });
});

describe('asking in a replay', () => {
  it('answers why and how at every 50th record, throws nowhere and moves nowhere', async () => {
    for (const name of ['clean-first-batch', 'abandoned-and-resumed']) {
      const log = demoLog(name);
      const replay = new TryReplay(log);
      for (let place = 0; place <= log.length; place += 50) {
        await replay.say(String(place));
        const view = JSON.stringify(replay.talk.view());
        const asked = ['why', 'how', 'how sure', '=', 'what is titration', 'where am I', 'timers', 'r', '?'];
        for (const line of asked) expect(texts(await replay.say(line)).join('')).not.toBe('');
        expect(JSON.stringify(replay.talk.view())).toBe(view);
        expect(replay.record).toBe(place);
      }
    }
  });

  it('tells a timer as it stood then, not as it stands now', async () => {
    const index = clean.findIndex(({ event }) => event.type === 'WaitEnded' && event.waitedMinutes >= 10);
    const replay = new TryReplay(clean);
    await replay.say(String(index));
    expect(texts(await replay.say('timers'))[0]).toMatch(/^Waiting .* to go, until \d\d:\d\d UTC/);
  });

  it.each([
    'note I was here',
    'back to bed',
    'give up',
    'change oil to 3 L',
    'what if it were 5 L',
    'not sure',
    'clear water',
    'long',
    'short',
    '!',
    '\u202e\u0007',
    '-5',
    '3.5',
    'play fast',
    '57 57',
  ])('answers and changes nothing when somebody types %j', async (line) => {
    const replay = new TryReplay(rig);
    await replay.say('20');
    const view = JSON.stringify(replay.talk.view());
    expect(texts(await replay.say(line)).join('')).toMatch(/^In a replay nothing is answered or changed/);
    expect(JSON.stringify(replay.talk.view())).toBe(view);
  });

  it.each(['leave', 'pause', 'p', 'quit', 'stop'])('ends with %s and says nothing', async (line) => {
    const replay = new TryReplay(rig);
    expect(await replay.say(line)).toEqual([]);
    expect(replay.talk.over).toBe(true);
  });

  it('survives any lines and leaves log and records as they were', async () => {
    const file = join(mkdtempSync(join(tmpdir(), 'replay-')), 'b.ndjson');
    copyFileSync(demoFileOf('dangerous-rig-stopped'), file);
    const records = JSON.stringify(rig);
    const known = ['', 'back', 'warning', 'end', 'start', 'why', 'play', '12', 'stage rig', '18:00', '7:3'];
    const line = fc.oneof(fc.constantFrom(...known), fc.string());
    await fc.assert(
      fc.asyncProperty(fc.array(line, { maxLength: 12 }), async (lines) => {
        const replay = new TryReplay(rig);
        for (const one of lines) {
          await replay.say(one);
          replay.talk.view();
          replay.pass(100);
        }
      }),
      { numRuns: 60 },
    );
    expect(JSON.stringify(rig)).toBe(records);
    expect(readFileSync(file)).toEqual(readFileSync(demoFileOf('dangerous-rig-stopped')));
  });
});

describe('playing by itself', () => {
  it('says everything in order and ends', async () => {
    const replay = new TryReplay(rig);
    await replay.say('play 10000');
    replay.pass(10 * 60_000);
    expect(replay.turns.slice(0, -1)).toEqual(spoken(rig).flat());
    expect(replay.turns.at(-1)?.text).toBe('The log ends here.');
    expect(replay.timer).toBe(undefined);
  });

  it('keeps the time between records, so many times as fast', async () => {
    const replay = new TryReplay(rig);
    const gap = Date.parse(rig[1]?.event.at ?? '') - Date.parse(rig[0]?.event.at ?? '');
    await replay.say('1', 'play 2');
    replay.pass(gap / 2 - 1);
    expect(replay.record).toBe(1);
    replay.pass(1);
    expect(replay.record).toBe(2);
  });

  it('sits through no long pause of the log', async () => {
    const long = rig.map(({ seq, event }, index) =>
      index < 5 ? { seq, event } : { seq, event: { ...event, at: '2026-05-01T00:00:00.000Z' } },
    );
    const replay = new TryReplay(long);
    await replay.say('5', 'play 1');
    replay.pass(3999);
    expect(replay.record).toBe(5);
    replay.pass(1);
    expect(replay.record).toBeGreaterThan(5);
  });

  it('never plays slower than it was, and remembers its speed', async () => {
    const replay = new TryReplay(rig);
    await replay.say('play 0');
    expect(replay.timer?.at).toBeLessThanOrEqual(4000);
    await replay.say('', 'play 10000', '', 'play');
    expect(replay.timer && replay.timer.at - replay.now).toBeLessThan(10);
  });

  it.each(['', 'stop'])('stops with %j and stays there', async (line) => {
    const replay = new TryReplay(rig);
    await replay.say('play 1');
    expect(replay.talk.view().question?.hint).toContain('playing');
    replay.pass(8000);
    const { record } = replay;
    expect(record).toBeGreaterThan(2);
    expect(await replay.say(line)).toEqual([]);
    replay.pass(600_000);
    expect(replay.record).toBe(record);
    expect(replay.talk.over).toBe(false);
    expect(replay.talk.view().question?.hint).not.toContain('playing');
  });

  it('plays nothing after it was left', async () => {
    const replay = new TryReplay(rig);
    await replay.say('play', 'leave');
    const said = replay.turns.length;
    replay.pass(600_000);
    expect(replay.turns.length).toBe(said);
  });
});
