import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { PreparedAnswers } from '../../src/commands/answers-file.ts';
import { runAnswers } from '../../src/commands/run-answers.ts';
import { replay } from '../../src/conversation/replay.ts';
import type { State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { SmallTalk } from '../conversation/small-talk.ts';
import { book } from '../rulebook/cases.ts';
import { essence } from './essence.ts';
import { demoBatches, ToldTalk, talkStraight, whole } from './straight-talk.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000 });

const demo = new URL('../../transcripts-demo/clean-first-batch.answers.yaml', import.meta.url);
const answers = parse(readFileSync(demo, 'utf8')) as Record<string, unknown>;

/** The clean batch, talked through up to a question, with some answers put in place of its own. */
async function talkUpTo(question: string, instead: Record<string, string> = {}): Promise<SmallTalk> {
  const talk = await new SmallTalk(book).open();
  const { [question]: _left, ...given } = { ...answers, ...instead };
  const prepared = new PreparedAnswers(given as ConstructorParameters<typeof PreparedAnswers>[0]);
  expect(await runAnswers(book, talk.session, prepared, talk.clock)).toBe(question);
  return talk;
}

/** A recorded demo batch, gone back to where something first holds of its state. */
function demoWhere(name: string, holds: (state: State) => boolean): ToldTalk {
  const events = demoBatches().find((batch) => batch.name === name)?.events ?? [];
  let { state } = replay(makeStep(book), []);
  const place = events.findIndex((event) => {
    state = makeStep(book)(state, event).state;
    return !state.evaluating && holds(state);
  });
  if (place < 0) throw new Error(`${name} never comes to this`);
  return new ToldTalk(events.slice(0, place + 1));
}

const asks = (question: string) => (state: State) => state.asking === question;

/** Types a change into a talk and holds it against a talk that was answered so from the start. */
async function changeAndCompare(talk: ToldTalk, question: string, to: string): Promise<void> {
  const begun = [...talk.events];
  const index = talk.state.past.findLastIndex((given) => given.question === question);
  await talk.session.type(`change ${question} to ${to}`);
  const event = talk.events[begun.length];
  if (event?.type !== 'AnswerChanged') throw new Error(`not taken: ${talk.said.at(-1)}`);
  const straight = await talkStraight(begun, index, { answer: event.answer, text: event.text });
  expect(whole(talk.state)).toEqual(whole(straight.state));
  expect(replay(makeStep(book), talk.events).state).toEqual(talk.state);
}

describe('an early answer put right late gives the same state as having answered so at first', () => {
  it.each([
    ['titrant-2', '1.8 mL'],
    ['altitude', '900 m'],
    ['weather-temperature', '20 C'],
  ])('%s, %s', async (question, to) => {
    const changed = await talkUpTo('alkali-weighed');
    await changed.say(`change ${question} to ${to}`);
    const straight = await talkUpTo('alkali-weighed', { [question]: to });
    expect(essence(changed.session.state)).toEqual(essence(straight.session.state));
    expect(changed.said('note').at(-1)).toContain('Changed');
    changed.expectReplayMatches();
  });

  it.each([
    ['wet-oil-dried-twice', 'a replicate', 'titrant-2', '2.5 mL'],
    ['failed-conversion-second-stage', 'a volume', 'oil-volume', '150 L'],
    ['high-acid-blended', 'where it all began', 'altitude', '900 m'],
  ])('%s: %s, at the end of the batch', async (name, _about, question, to) => {
    await changeAndCompare(demoWhere(name, asks('review-wanted')), question, to);
  });
});

describe('what a change may not lose', () => {
  it('a report of trouble, the stop that it raised and what cleared it', async () => {
    const talk = demoWhere('abandoned-and-resumed', asks('methoxide-minutes'));
    expect(Object.keys(talk.state.cleared)).toEqual(['R03']);
    await changeAndCompare(talk, 'season', 'cold');
    expect(Object.keys(talk.state.cleared)).toEqual(['R03']);
  });

  it('that a wait is over', async () => {
    const talk = demoWhere('abandoned-and-resumed', asks('cooling-check'));
    await changeAndCompare(talk, 'altitude', '900 m');
    expect(talk.state).toMatchObject({ asking: 'cooling-check', waiting: undefined });
  });

  it('how long a running wait has run', async () => {
    const talk = demoWhere('clean-first-batch', (state) => state.waiting?.question === 'settle-hours');
    const { waiting } = talk.state;
    talk.now = new Date(Date.parse(talk.now) + 3 * 3_600_000).toISOString();
    await changeAndCompare(talk, 'altitude', '900 m');
    expect(talk.state.waiting).toEqual(waiting);
    expect(talk.session.minutesWaited()).toBeCloseTo(180, 0);
  });

  it('that what holds for the moment was asked anew after days away', async () => {
    const isAnew = (state: State) => state.session === 2 && state.asking === 'gly-drawn';
    const talk = demoWhere('abandoned-and-resumed', isAnew);
    const { rested } = talk.state.answers;
    expect(rested?.at).toContain('2026-04-24');
    await changeAndCompare(talk, 'altitude', '900 m');
    expect(talk.state.answers.rested?.at).toBe(rested?.at);
  });

  it('that a stop which holds until a new session was cleared in one', async () => {
    const talk = demoWhere('clean-first-batch', asks('feed-look'));
    for (const line of ['there is a fire', 'fire', 'pause']) await talk.session.type(line);
    const again = { program: 'test', rules: 'test', awayMinutes: 30 };
    await talk.happenAt('2026-03-02T18:00:00.000Z', { type: 'SessionOpened', ...again });
    for (const line of ['fire service says the place is safe', 'yes']) await talk.session.type(line);
    expect(talk.state.cleared).toHaveProperty('R01');
    await changeAndCompare(talk, 'altitude', '900 m');
    expect(talk.state).toMatchObject({ held: [], asking: 'feed-look' });
  });
});

describe('what a change brings up', () => {
  it('is said when it ends the batch, with the reason', async () => {
    const talk = demoWhere('clean-first-batch', asks('container-bottom'));
    await changeAndCompare(talk, 'authority-asked', 'refused');
    expect(talk.state.ended).toBe('rejected');
    expect(talk.said).toContainEqual(expect.stringContaining('The batch ends here and the log says why.'));
  });

  it('is asked again when it is not sure and the way on rests on it', async () => {
    const talk = demoWhere('high-acid-blended', asks('assay'));
    await changeAndCompare(talk, 'screen-runs', 'not sure');
    expect(talk.state).toMatchObject({ stage: 'feedstock', asking: 'screen-runs' });
  });

  it('is said when it leads elsewhere: new advice, and where the batch is now', async () => {
    const talk = demoWhere('clean-first-batch', asks('alkali-weighed'));
    await changeAndCompare(talk, 'water-loss-after', '99.5 g');
    expect(talk.state.stage).toBe('dewater');
    expect(talk.said.at(-1)).toContain('The batch is now here:');
    expect(talk.said.length).toBeGreaterThan(1);
  });
});
