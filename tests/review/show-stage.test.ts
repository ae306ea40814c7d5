import { describe, expect, it, vi } from 'vitest';
import { open } from './try-review.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

describe('where a mentor is asked for words', () => {
  it('"show" begins what is said', async () => {
    const review = open();
    await review.say(
      'Show Mentor',
      '2',
      'show me the jar',
      '6',
      '1',
      'show the jar first',
      'show settled oil',
      '1',
    );
    expect(review.kept.find(({ type }) => type === 'CommentMade')).toMatchObject({ text: 'show me the jar' });
    expect(review.kept.at(-1)).toMatchObject({
      mentor: 'Show Mentor',
      well: 'show the jar first',
      change: 'show settled oil',
    });
  });

  it.each(['show settle', 'Show second-stage', 'show second stage', 'show by-products'])(
    '%j shows the stage, and the words are still asked for',
    async (line) => {
      const review = open();
      await review.say('Mentor B', '2');
      const before = review.asks;
      expect(await review.say(line)).toMatch(/^\d+ {2}\d\d:\d\d |no answers of a stage/);
      expect([review.asks, review.kept]).toEqual([before, []]);
      await review.say('back', '6', '1');
      expect(await review.say(line)).toMatch(/^\d+ {2}\d\d:\d\d |no answers of a stage/);
      expect(review.asks).toBe('One thing that was done well?');
    },
  );
});

it('where a choice is asked for, a stage may be named in words, with a slip', async () => {
  const review = open();
  await review.say('Mentor B');
  expect(await review.say('show setle')).toMatch(/settle: Hours settled\?/);
});
