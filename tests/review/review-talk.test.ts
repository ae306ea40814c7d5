import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { EventBody } from '../../src/conversation/events.ts';
import { book } from '../rulebook/cases.ts';
import { editedStory } from './edited-log.ts';
import { checks, found, open, opened, signed, TryReview, tookUp } from './try-review.ts';

vi.setConfig({ testTimeout: 60_000 });

describe('the walk', () => {
  it('has enough to walk through', () => {
    expect(checks.length).toBeGreaterThan(3);
  });

  it('says how the batch ended and how much was found, and asks who reviews', () => {
    const review = open();
    expect(review.turns[1]?.text).toMatch(new RegExp(`finished, \\d+ records, ${checks.length} findings`));
    expect(review.asks).toBe('Who reviews?');
    expect(review.kept).toEqual([]);
  });

  it('lists the findings, shows the first with its answers, and keeps nothing yet', async () => {
    const review = open();
    const said = await review.say('Mentor B');
    for (const check of checks) expect(said).toContain(`- ${check} `);
    expect(said).toContain(found[0]?.says);
    expect(said).toMatch(/^\d+ {2}\d\d:\d\d /m);
    expect(review.heading).toBe(`Review, finding 1 of ${checks.length}`);
    expect(review.kept).toEqual([]);
  });

  it('goes through all of them by "seen", back too, and keeps each once', async () => {
    const review = open();
    await review.say('Mentor B', '1', '1', 'back', 'seen', 'ok');
    expect(review.heading).toBe(`Review, finding 4 of ${checks.length}`);
    expect(review.types).toEqual(['ReviewOpened', 'CheckSeen', 'CheckSeen', 'CheckSeen']);
    expect(review.kept.flatMap((event) => ('check' in event ? [event.check] : []))).toEqual(
      checks.slice(0, 3),
    );
    for (const _check of checks.slice(3)) await review.say('1');
    expect(review.asks).toBe('What is your verdict?');
    expect(await review.say('findings')).toMatch(new RegExp(`(, seen[\\s\\S]*){${checks.length}}`));
  });

  it('stays at the first finding when asked for the one before', async () => {
    const review = open();
    await review.say('Mentor B', '5');
    expect(review.heading).toContain('finding 1 of');
  });

  it('says why a check fired and what was said around it, and stays there', async () => {
    const review = open();
    await review.say('Mentor B');
    expect(await review.say('why')).toMatch(/^- .*it was[\s\S]*Source: /m);
    expect((await review.say('3')).split('\n').length).toBeGreaterThan(3);
    expect(review.heading).toContain('finding 1 of');
    expect(review.kept).toEqual([]);
  });

  it('shows the answers of a stage by its name', async () => {
    const review = open();
    await review.say('Mentor B');
    expect(await review.say('show settle')).toMatch(/settle: Hours settled\?.*5\.0/);
    expect(await review.say('show zzqqy')).toMatch(/no answers of a stage "zzqqy"/);
  });

  it('leaves the rest for the verdict, and comes back from there', async () => {
    const review = open();
    await review.say('Mentor B', '6');
    expect(review.asks).toBe('What is your verdict?');
    await review.say('back');
    expect(review.heading).toBe(`Review, finding ${checks.length} of ${checks.length}`);
  });

  it('goes straight to the verdict where nothing was found', async () => {
    const review = new TryReview(editedStory(book, { log: 'dangerous-rig-stopped' }));
    expect(await review.say('Mentor B')).toContain('The checks found nothing.');
    expect(review.asks).toBe('What is your verdict?');
    expect(await review.say('back')).toMatch(/I cannot tell which/);
  });

  it('answers by one key where there are choices, and never where words are asked for', async () => {
    const review = open();
    const keys = () => review.talk.view().question?.oneKey;
    expect(keys()).toBe(false);
    await review.say('Mentor B');
    expect(keys()).toBe(true);
    await review.say('2');
    expect(keys()).toBe(false);
    await review.say('So.', '6');
    expect(keys()).toBe(true);
    await review.say('1', 'well', 'change');
    expect([review.asks, keys()]).toEqual(['Sign it so?', true]);
  });
});

describe('comments', () => {
  it('to a finding is kept with its check, and counts as seen', async () => {
    const review = open();
    await review.say('Mentor B', '2');
    expect(review.asks).toBe(`What do you tell the learner? (about ${checks[0]})`);
    await review.say('Let it cool to 55 first.');
    expect(review.kept.slice(1)).toEqual([
      { type: 'CommentMade', text: 'Let it cool to 55 first.', check: checks[0] },
      { type: 'CheckSeen', check: checks[0] },
    ]);
    expect(review.heading).toContain('finding 2 of');
  });

  it.each([
    'Did you wait for it?',
    'How many of these 75 minutes was the pump loud?',
    'why',
    'maybe',
    'skip',
    'Why: because it boils.',
    'yes',
    '7',
  ])('may be %j, a question or a word that means something elsewhere', async (words) => {
    const review = open();
    await review.say('Mentor B', '2', words);
    expect(review.kept[1]).toEqual({ type: 'CommentMade', text: words, check: checks[0] });
  });

  it('can be thought better of', async () => {
    const review = open();
    await review.say('Mentor B', '2', 'back');
    expect(review.heading).toContain('finding 1 of');
    expect(review.asks).toBe('What about this one?');
    expect(review.kept).toEqual([]);
  });

  it('to a record and to the whole batch, at any question', async () => {
    const review = open();
    await review.say('Mentor B', 'comment 57: Well measured.', 'comment on record 3: Who?', '6');
    await review.say('Comment: A calm batch.');
    expect(review.kept.slice(1)).toEqual([
      { type: 'CommentMade', text: 'Well measured.', record: 57 },
      { type: 'CommentMade', text: 'Who?', record: 3 },
      { type: 'CommentMade', text: 'A calm batch.' },
    ]);
    expect(review.asks).toBe('What is your verdict?');
  });

  it('to a record that is not there are refused, with what is there', async () => {
    const review = open();
    await review.say('Mentor B');
    for (const record of [0, 99_999])
      expect(await review.say(`comment ${record}: x y`)).toMatch(/The log has records 1 to \d+\./);
    expect(review.kept).toEqual([]);
  });

  it('wait for a name: the learner is to know who speaks', async () => {
    const review = open();
    expect(await review.say('comment: hello')).toBe('Say first who reviews.');
    expect(review.kept).toEqual([]);
    await review.say('Mentor B', 'comment: hello');
    expect(review.kept[0]).toMatchObject({ type: 'ReviewOpened', mentor: 'Mentor B' });
  });
});

describe('the signature', () => {
  it('holds verdict, one thing done well, one to change, and what was found', async () => {
    const review = open();
    await review.say('Mentor B', '6');
    expect(await review.say('alone')).toMatch(/In order, as far as the log shows: /);
    await review.say('Three flasks were titrated.');
    const summary = await review.say('Will you wait longer?');
    expect(summary).toContain('go on alone, minding what is written here');
    expect(review.talk.over).toBe(false);
    await review.say('1');
    expect(review.kept.at(-1)).toEqual({
      type: 'ReviewSigned',
      mentor: 'Mentor B',
      verdict: 'alone-with-this',
      well: 'Three flasks were titrated.',
      change: 'Will you wait longer?',
      found: checks,
    });
    expect(review.talk.over).toBe(true);
  });

  it('is not given by "not yet": the verdict is asked again', async () => {
    const review = open();
    await review.say('Mentor B', '6', '3', 'w w', 'c c', 'not yet');
    expect(review.asks).toBe('What is your verdict?');
    expect(review.types).not.toContain('ReviewSigned');
    expect(review.talk.over).toBe(false);
  });

  it('can be walked back from, question by question', async () => {
    const review = open();
    await review.say('Mentor B', '6', '3', 'w w', 'c c', 'back', '<', 'back');
    expect(review.asks).toBe('What is your verdict?');
    await review.say('1', 'well two', 'change two', '1');
    expect(review.kept.at(-1)).toMatchObject({ verdict: 'repeat-with-someone', well: 'well two' });
  });

  it('takes a doubtful word only after a yes, and then as what was asked about', async () => {
    const review = open();
    await review.say('Mentor B', '6');
    expect(await review.say('redy')).toBe('Did you mean "ready to go on alone"?');
    expect(review.asks).toBe('What is your verdict?');
    expect(review.talk.view().confirms).toBe('Did you mean "ready to go on alone"?');
    await review.say('yes');
    await review.say('w w', 'c c', '1');
    expect(review.kept.at(-1)).toMatchObject({ verdict: 'ready' });
  });

  it('takes a yes for nothing but the doubt before it', async () => {
    const review = open();
    await review.say('Mentor B', 'comnent', 'yes');
    expect(review.asks).toContain('What do you tell the learner?');
    await review.say('back', 'comnent', 'why', 'yes');
    expect(review.types).toEqual(['ReviewOpened', 'CheckSeen']);
  });

  it.each(['not sure', 'skip'])('is no verdict when the mentor says %j', async (line) => {
    const review = open();
    await review.say('Mentor B', '6');
    expect(await review.say(line)).toMatch(/Take your time/);
    expect(review.asks).toBe('What is your verdict?');
  });

  it.each(['pause', 'p', 'leave', 'quit', 'exit'])(
    'is not given by %s, and what was written stays',
    async (line) => {
      const review = open();
      await review.say('Mentor B', '1', '2', line);
      expect(review.types).toEqual(['ReviewOpened', 'CheckSeen']);
      expect(review.talk.over).toBe(true);
    },
  );

  it('is never given by any lines without a typed sign', async () => {
    const words = ['', '1', '2', '3', '4', '5', '6', 'back', 'pause', 'findings', 'comment: hey you', 'seen'];
    const line = fc.oneof(fc.constantFrom(...words), fc.string());
    await fc.assert(
      fc.asyncProperty(fc.array(line, { maxLength: 20 }), async (lines) => {
        const review = open();
        let asked = '';
        for (const one of lines) {
          if (review.talk.over) break;
          asked = review.asks;
          await review.say(one);
          review.talk.view();
          if (review.types.includes('ReviewSigned')) expect(asked).toBe('Sign it so?');
        }
        if (review.kept.length > 0) expect(review.types[0]).toBe('ReviewOpened');
        expect(review.types.filter((type) => type === 'ReviewOpened').length).toBeLessThan(2);
      }),
      { numRuns: 40 },
    );
  });
});

describe('a review that is taken up again', () => {
  it('goes on at the first finding not seen yet, and says what was written', async () => {
    const [first = '', second = ''] = checks;
    const review = tookUp(
      opened,
      { type: 'CheckSeen', check: first },
      { type: 'CommentMade', text: 'Hm.', check: second },
      { type: 'CheckSeen', check: second },
    );
    expect(review.turns.at(-1)?.text).toBe('Taken up again: 1 comment, unsigned.');
    expect(await review.say('Mentor A')).toContain(`- ${first} `);
    expect(review.heading).toBe(`Review, finding 3 of ${checks.length}`);
    await review.say('back', '1');
    expect(review.kept).toEqual([]);
  });

  it('after a signature begins anew, and says who signed what', async () => {
    const seen = checks.map((check): EventBody => ({ type: 'CheckSeen', check }));
    const review = tookUp(opened, ...seen, signed);
    expect(review.turns.at(-1)?.text).toBe('Reviewed before by Mentor A: ready to go on alone.');
    expect(await review.say('Mentor B')).not.toContain(', seen');
    expect(review.heading).toContain('finding 1 of');
    await review.say('6', '1', 'w w', 'c c', '1');
    expect(review.types).toEqual(['ReviewOpened', 'ReviewSigned']);
  });
});

describe('a disk that fails', () => {
  it('loses no comment and asks for none twice, wherever it fails', async () => {
    for (const room of [0, 1, 2]) {
      const review = open();
      await review.say('Mentor B', '2');
      review.room = room;
      await expect(review.say('Look at this.')).rejects.toThrow('the disk is full');
      review.room = Number.POSITIVE_INFINITY;
      await review.say(review.asks.startsWith('What do you tell') ? 'Look at this.' : '1');
      expect(review.types).toEqual(['ReviewOpened', 'CommentMade', 'CheckSeen']);
      expect(review.heading).toContain('finding 2 of');
    }
  });

  it('leaves the signature open, to be given again', async () => {
    const review = open();
    await review.say('Mentor B', '6', '3', 'w w', 'c c');
    review.room = 1;
    await expect(review.say('1')).rejects.toThrow('the disk is full');
    expect([review.asks, review.talk.over]).toEqual(['Sign it so?', false]);
    review.room = 1;
    await review.say('1');
    expect(review.types).toEqual(['ReviewOpened', 'ReviewSigned']);
    expect(review.talk.over).toBe(true);
  });
});
