import { expect, it } from 'vitest';
import { FixedClock } from '../../src/commands/clock.ts';
import { Session } from '../../src/commands/session.ts';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { smallBook } from '../conversation/small-book.ts';

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
