import { expect, it } from 'vitest';
import { FixedClock } from '../../src/commands/clock.ts';
import { Session } from '../../src/commands/session.ts';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { smallBook } from '../conversation/small-book.ts';
import { SmallTalk } from '../conversation/small-talk.ts';
import { essence } from '../scenarios/essence.ts';

it('goes on after the disk failed between an answer and what the rules said to it', async () => {
  const kept: TalkEvent[] = [];
  let failOn: TalkEvent['type'] | undefined;
  const append = (event: TalkEvent) => {
    if (event.type === failOn) throw new Error('the disk is full');
    kept.push(event);
  };
  const listener = { turn: () => undefined, changed: () => undefined };
  const session = new Session(smallBook, { append }, new FixedClock('2026-03-02T08:00:00Z'), listener);
  await session.dispatch({ type: 'BatchOpened', batch: 'b', program: 'test', rules: '' });
  failOn = 'RulesEvaluated';
  await expect(session.type('10 L')).rejects.toThrow('the disk is full');
  failOn = undefined;
  await session.type('50 C');
  expect(session.state.answers.heat?.status).toBe('known');
  const rules = 'RulesEvaluated';
  // The last run is that of the stage which the second answer leads to.
  expect(kept.map((event) => event.type)).toEqual([
    'BatchOpened',
    'AnswerGiven',
    rules,
    'AnswerGiven',
    rules,
    rules,
  ]);
  expect(session.state.stage).toBe('pour');
});

it('finishes a change that the disk broke off, with the next line', async () => {
  const straight = await new SmallTalk().open();
  await straight.say('12 L', '50 C', 'shut');
  for (const failAt of [1, 2, 3, 4, 5]) {
    const talk = await new SmallTalk().open();
    await talk.say('10 L', '50 C', 'shut');
    let left = failAt;
    const append = talk.events.push.bind(talk.events);
    talk.events.push = (...events) => {
      if (left-- === 0) throw new Error('the disk is full');
      return append(...events);
    };
    await talk.session.type('change amount to 12 L').catch(() => undefined);
    await talk.say('where am i');
    expect(talk.session.state.changing, `broken off at record ${failAt}`).toBe(undefined);
    expect(talk.said('help').length).toBeGreaterThan(0);
    expect(essence(talk.session.state)).toEqual(essence(straight.session.state));
    talk.expectReplayMatches();
  }
});

it('ends a wait that ran out while the computer slept, whatever was typed to it', async () => {
  const talk = await new SmallTalk().open();
  await talk.say('10 L', '80 C');
  expect(talk.session.state.waiting?.minutes).toBe(10);
  talk.clock.pass(25);
  await talk.say('ready');
  expect(talk.events.find(({ type }) => type === 'WaitEnded')).toMatchObject({ how: 'in-time' });
  expect(talk.session.state.waiting).toBe(undefined);
  expect(talk.asking).toBe('heat');
  expect(talk.session.state.answers.heat).toBe(undefined);
  talk.expectReplayMatches();
});

it('says that a finished wait cannot be written, and tries again', async () => {
  const rings: (() => void)[] = [];
  const clock = Object.assign(new FixedClock('2026-03-02T08:00:00Z'), {
    wakeAfter: (_milliseconds: number, then: () => void) => {
      rings.push(then);
      return undefined;
    },
  });
  let full = false;
  const said: string[] = [];
  const append = () => {
    if (full) throw new Error('the disk is full');
  };
  const session = new Session(smallBook, { append }, clock, {
    turn: ({ text }) => said.push(text),
    changed: () => undefined,
  });
  await session.dispatch({ type: 'BatchOpened', batch: 'b', program: 'test', rules: '' });
  await session.type('10 L');
  await session.type('80 C');
  clock.pass(10);
  full = true;
  rings.at(-1)?.();
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(said.at(-1)).toMatch(/wait is over, but the log cannot be written: the disk is full/);
  expect(session.state.waiting).toBeDefined();
  full = false;
  rings.at(-1)?.();
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(session.state.waiting).toBe(undefined);
});
