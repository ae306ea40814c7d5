import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { PreparedAnswers } from '../../src/commands/answers-file.ts';
import { runAnswers } from '../../src/commands/run-answers.ts';
import { book } from '../rulebook/cases.ts';
import { SmallTalk } from './small-talk.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const demo = new URL('../../transcripts-demo/clean-first-batch.answers.yaml', import.meta.url);
const answers = parse(readFileSync(demo, 'utf8')) as Record<string, unknown>;

/** The clean demo batch, talked through up to a question, then these lines. */
async function talkOn(question: string, ...lines: string[]): Promise<SmallTalk> {
  const talk = await new SmallTalk(book).open();
  const { [question]: _left, ...given } = answers;
  const prepared = new PreparedAnswers(given as ConstructorParameters<typeof PreparedAnswers>[0]);
  expect(await runAnswers(book, talk.session, prepared, talk.clock)).toBe(question);
  await talk.say(...lines);
  return talk;
}

const heldBy = (talk: SmallTalk) => talk.session.state.held.map(({ stop }) => stop);

describe('going back behind a danger', () => {
  const dark = ['dark oil with bubbles', 'back'] as const;

  it('repeats what was told and takes another answer only with a typed yes', async () => {
    const talk = await talkOn('drain-look', ...dark);
    expect(talk.asking).toBe('drain-look');
    expect(talk.said('asks-back').at(-1)).toMatch(/You had said "dark oil with bubbles".*looked again/);
    await talk.say('clear bright oil');
    expect(talk.session.state.answers['drain-look']).toBeUndefined();
    expect(talk.said('asks-back').at(-1)).toMatch(/You said "dark oil with bubbles".*Is "clear bright oil"/);
    await talk.say('ok');
    expect(talk.session.state.answers['drain-look']).toBeUndefined();
    await talk.say('yes');
    expect(talk.session.state.answers['drain-look']?.answer).toEqual({ kind: 'choice', choice: 'clear-oil' });
  });

  it('follows the warning again when the same answer is given again', async () => {
    const talk = await talkOn('drain-look', ...dark, 'dark oil with bubbles');
    expect(talk.session.state.waiting).toMatchObject({ question: 'drain-look', fixed: true });
  });

  it('asks nothing more after an answer on which nothing was told', async () => {
    const talk = await talkOn('drain-look', 'clear bright oil', 'back', 'clear water');
    expect(talk.session.state.challenged).toEqual({});
  });

  it('takes a change of such an answer only with a typed yes', async () => {
    const talk = await talkOn('drain-look', 'dark oil with bubbles', 'change drain look to clear bright oil');
    expect(talk.said('asks-back').at(-1)).toMatch(/I warned you/);
    await talk.say('no');
    expect(talk.said('asks-back').at(-1)).toMatch(/stays as it was/);
    await talk.say('change drain look to clear bright oil', 'yes');
    expect(talk.session.state.answers['drain-look']?.answer).toEqual({ kind: 'choice', choice: 'clear-oil' });
  });
});

describe('a wait that advice of DANGER asks for', () => {
  it('is as firm as that of a stop', async () => {
    const talk = await talkOn('drain-look', 'dark oil with bubbles');
    expect(talk.session.state.waiting).toMatchObject({ minutes: 120, fixed: true });
    talk.clock.pass(90);
    await talk.say('ready');
    expect(talk.session.state.waiting?.question).toBe('drain-look');
    await talk.wait();
    expect(talk.asking).toBe('drain-look');
  });
});

describe('a report of trouble that was a mistake', () => {
  const popping = ['!', 'popping'] as const;

  it('is taken back with a look from outside and a typed yes, and the log keeps it', async () => {
    const talk = await talkOn('drain-look', ...popping);
    expect(heldBy(talk)).toContain('R09-reported');
    await talk.say('false alarm');
    expect(talk.said('asks-back').at(-1)).toMatch(/Look from where you can leave/);
    await talk.say('ok');
    expect(talk.session.state.held).toHaveLength(1);
    await talk.say('yes');
    expect(talk.session.state.held).toEqual([]);
    expect(talk.said('cleared').at(-1)).toContain('never was there');
    expect(talk.asking).toBe('drain-look');
  });

  it('is heard during the wait of the stop, and no keeps the stop', async () => {
    const talk = await talkOn('drain-look', ...popping, 'oil tank', 'yes');
    expect(talk.session.state.waiting).toMatchObject({ question: 'tank-quiet', fixed: true });
    await talk.say('it was a mistake', 'no');
    expect(talk.session.state.held).toHaveLength(1);
    await talk.say('it was a mistake', 'yes');
    expect(talk.session.state).toMatchObject({ held: [], waiting: undefined, asking: 'drain-look' });
  });

  it('does not undo the fire stop, nor an earlier report', async () => {
    const talk = await talkOn('drain-look', '!', 'fire', 'false alarm', 'yes');
    expect(heldBy(talk)).toEqual(['R01']);
    const two = await talkOn('drain-look', ...popping, '!', 'hissing', 'false alarm', 'yes');
    expect(heldBy(two)).toEqual(['R09-reported']);
  });

  it('is not meant by "all is well" to another report', async () => {
    const talk = await talkOn('drain-look', ...popping, 'there is a fire', '0', 'yes');
    expect(heldBy(talk)).toContain('R09-reported');
  });

  it('names what would be taken back', async () => {
    const talk = await talkOn('drain-look', ...popping, 'false alarm');
    expect(talk.said('asks-back').at(-1)).toContain('You reported: popping or thumping under the oil.');
  });

  it('does not follow from naming all well without the look', async () => {
    const talk = await talkOn('drain-look', ...popping, '!', 'all is well');
    expect(talk.session.state.held).toHaveLength(1);
  });
});

describe('what is happening comes before what only bars the way', () => {
  it('asks about the foam first, then about the sparks', async () => {
    const talk = await talkOn('ignition-nearby', 'a pilot light', '!', 'boil over');
    expect(heldBy(talk)).toEqual(['R09-boil-over-reported', 'R04-flame']);
    expect(talk.asking).toBe('reported-vessel');
  });
});

describe('a change that has to be settled', () => {
  it('listens to yes', async () => {
    const talk = await talkOn('filled-volume', '160 L', 'change filled volume to 300 L');
    expect(talk.session.state.doubt?.changes).toBe(true);
    await talk.say('yes');
    expect(talk.session.state.answers['filled-volume']?.answer).toMatchObject({ value: 300 });
  });

  it('names the nearest answers when it cannot tell which is meant', async () => {
    const talk = await talkOn('filled-volume', '160 L', 'change oil volume to 42 gal');
    expect(talk.said('asks-back').at(-1)).toMatch(/- filled volume: 160.*Say it like: change/s);
  });
});

describe('a second reading in the line', () => {
  it('is said back as left out', async () => {
    const talk = await talkOn('filled-volume', '43 gal, 60 F');
    expect(talk.said('asks-back').at(-1)).toMatch(/"60 F" I leave out/);
  });
});
