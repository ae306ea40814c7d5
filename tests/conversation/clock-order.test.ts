import { describe, expect, it } from 'vitest';
import { minutesFrom } from '../../src/conversation/understanding/clock-time.ts';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { book } from '../rulebook/cases.ts';
import { talkAt } from './understood.ts';

describe('minutes between two times of day', () => {
  it.each([
    ['14:00', '14:20', 20],
    ['23:50', '00:10', 20],
    ['14:20', '14:00', -20],
    ['00:10', '23:50', -20],
  ])('from %s to %s are %i', (one, other, minutes) => expect(minutesFrom(one, other)).toBe(minutes));
});

describe('a time of day', () => {
  const earlier = { 'heating-ended': '14:35' };
  const read = (text: string, now?: string) =>
    understand(book, talkAt(book, 'water-test-time', earlier), text, now ? { now } : {});

  it('after the one that it follows is taken', () => {
    expect(read('15:10')).toMatchObject({ type: 'AnswerGiven', answer: { time: '15:10' } });
  });

  it('before it is asked about', () => {
    expect(read('13:10')).toMatchObject({
      type: 'AnswerDoubted',
      says: expect.stringContaining('before 14:35'),
    });
  });

  it('that is still to come is asked about', () => {
    expect(read('17:00', '15:20')).toMatchObject({
      type: 'AnswerDoubted',
      says: expect.stringContaining('to come'),
    });
  });

  it('spoken without the half of the day is the one just past', () => {
    expect(read('10 past 3', '15:20')).toMatchObject({ type: 'AnswerGiven', answer: { time: '15:10' } });
  });

  it.each(['now', 'just now', "it's now", 'Right now.'])('%s is the time on the clock', (text) => {
    expect(read(text, '15:20')).toMatchObject({ type: 'AnswerGiven', answer: { time: '15:20' } });
  });

  it('is not known from "now" where there is no clock', () => {
    expect(read('now')).toMatchObject({ type: 'AnswerNotUnderstood' });
  });

  it('of a stage gone through again may be of another day', () => {
    const state = talkAt(book, 'heating-ended', { 'water-test-time': '15:10' });
    expect(understand(book, state, '13:20')).toMatchObject({ type: 'AnswerGiven' });
  });
});
