import fc from 'fast-check';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { book } from '../rulebook/cases.ts';
import { demoBatches } from './straight-talk.ts';
import { TroubleTalk } from './trouble-talk.ts';

vi.setConfig({ testTimeout: 20_000 });

const step = makeStep(book);

/** The beginning of a demo batch, up to where a stage asks a question or lets the maker wait for it. */
function batchAt(stage: string, question: string): TalkEvent[] {
  const events = demoBatches().find(({ name }) => name === 'clean-first-batch')?.events ?? [];
  let { state } = replay(step, []);
  for (const [place, event] of events.entries()) {
    state = step(state, event).state;
    if (state.stage === stage && state.asking === question) return events.slice(0, place + 1);
  }
  throw new Error(`the demo batch never asks ${question} in ${stage}`);
}

let settling: TalkEvent[] = [];
beforeEach(() => {
  if (settling.length === 0) settling = batchAt('settle', 'glycerin-litres');
});

/** The demo batch goes on in memory from where it was cut. */
function talkFrom(events: readonly TalkEvent[]): TroubleTalk {
  const talk = new TroubleTalk();
  talk.events.push(...events);
  talk.turns.push(...talk.session.restore(events));
  talk.clock.pass(60 * 24 * 7);
  return talk;
}

const batchFacts = (talk: TroubleTalk) =>
  Object.fromEntries(Object.entries(talk.session.state.answers).map(([id, { answer }]) => [id, answer]));

describe('a trouble in the middle of a batch', () => {
  it('is opened with its description, knows the stage, and leads back to the very question', async () => {
    const talk = talkFrom(settling);
    const before = batchFacts(talk);
    await talk.say('something is wrong: the glycerin has gone hard and will not drain');
    expect(talk.trouble).toMatchObject({ proposed: ['gelled-glycerin'], stage: 'settle', alone: false });
    await talk.toVerdict({ [troubleAsks.right]: 'yes' });
    expect(talk.asked).not.toContain(troubleAsks.stage);
    await talk.say('go on where we were');
    expect([talk.trouble, talk.asking]).toEqual([undefined, 'glycerin-litres']);
    expect(batchFacts(talk)).toEqual(before);
    talk.expectReplayMatches();
  });

  it('asks where it showed when the trouble does not belong to the stage of the batch', async () => {
    const talk = talkFrom(settling);
    await talk.say('something is wrong: my last fuel clouds in the cold', 'yes');
    expect(talk.trouble).toMatchObject({ complaint: 'cold-gel', stage: undefined });
    expect(talk.asking).toBe(troubleAsks.stage);
    talk.expectReplayMatches();
  });

  it('says once what it takes from the log, however often a check is passed', async () => {
    const talk = talkFrom(settling);
    await talk.say(
      'trouble: way less fuel than I put in, poor yield',
      'yes',
      'not sure',
      'not sure',
      'not sure',
    );
    expect(talk.said('note').filter((text) => text.startsWith('From the log I take'))).toHaveLength(1);
  });

  it('uses what the log knows and does not ask for it again', async () => {
    const talk = talkFrom(settling);
    await talk.say('trouble: way less fuel than I put in, poor yield', 'yes');
    const known = talk.trouble?.outcome?.fromLog.map(({ finding }) => finding) ?? [];
    expect(known).toEqual(expect.arrayContaining(['titration', 'dose-recheck', 'methanol-ratio']));
    expect(talk.said('note').join('\n')).toContain('From the log I take:');
    await talk.toVerdict({});
    expect(talk.asked.filter((finding) => known.includes(finding))).toEqual([]);
  });

  it('goes to the stage where the cure begins when that is wished', async () => {
    const talk = talkFrom(settling);
    await talk.say('trouble: thousands of ppm of soap', 'yes');
    await talk.toVerdict({ 'dose-recheck': 'more than 5 % too much' });
    const back = book.diagnosis?.causes.find(({ id }) => id === talk.causes[0])?.['back-to'];
    await talk.say('cure');
    expect([talk.trouble, talk.session.state.stage]).toEqual([undefined, back]);
    talk.expectReplayMatches();
  });

  it('says so where the cure begins at a stage that the batch has not come to', async () => {
    const talk = talkFrom(settling);
    await talk.say('trouble: not fully reacted, oil at the bottom of the test tube', 'yes');
    await talk.toVerdict({ 'methanol-sg': 'heavy', 'hydroxide-state': 'clumped', 'acid-fizz': 'strong' });
    const back = book.diagnosis?.causes.find(({ id }) => id === talk.causes[0])?.['back-to'] ?? '';
    expect(talk.session.state.path).not.toContain(back);
    await talk.say('cure');
    expect(talk.said('note').at(-1)).toContain('a stage that this batch has not come to');
    expect([talk.session.state.stage, talk.asking]).toEqual(['settle', 'glycerin-litres']);
  });

  it('keeps "change" for later, in one clear line', async () => {
    const talk = talkFrom(settling);
    await talk.say('trouble: poor yield', 'change oil volume to 42 gal');
    expect(talk.said('asks-back').at(-1)).toContain('Say "leave it" first; then change what you like.');
    expect(talk.trouble).toBeDefined();
    await talk.say('leave it', 'change oil volume to 42 gal');
    if (talk.session.state.doubt) await talk.say('yes');
    expect(talk.events.some(({ type }) => type === 'AnswerChanged')).toBe(true);
  });

  it('does not take back an answer of the batch when going back has come to its beginning', async () => {
    const talk = talkFrom(settling);
    const before = batchFacts(talk);
    await talk.say('trouble: poor yield', 'back');
    expect(talk.said('asks-back').at(-1)).toContain('There is nothing to go back to here');
    expect(talk.trouble).toBeDefined();
    await talk.say('leave it');
    expect(batchFacts(talk)).toEqual(before);
  });

  it('lets a wait of the batch run on', async () => {
    const talk = talkFrom(settling);
    const waiting = {
      question: 'glycerin-litres',
      since: talk.clock.now(),
      minutes: 240,
      for: 'the jar',
      fixed: false,
    };
    const { state } = talk.session;
    talk.session.state = { ...state, asking: undefined, waiting, delays: { 'glycerin-litres': '4 h' } };
    await talk.say('trouble: poor yield', 'yes', 'not sure');
    expect(talk.session.state.waiting).toEqual(waiting);
    await talk.say('leave it');
    expect([talk.session.state.waiting, talk.asking]).toEqual([waiting, undefined]);
  });

  it('the alarm comes first, also in front of a description', async () => {
    const talk = talkFrom(settling);
    await talk.say('something is wrong: it smells of alcohol');
    expect([talk.trouble, talk.asking]).toEqual([undefined, 'alarm']);
    await talk.say('no danger');
    expect(talk.asking).toBe(troubleAsks.words);
  });
});

describe('whatever is said of a trouble', () => {
  const known = book.diagnosis?.complaints.flatMap(({ say, also }) => [say, ...also]) ?? [];
  const choices =
    book.diagnosis?.findings.flatMap((finding) =>
      Object.values(finding.choices).map(({ say }) => `${finding.short ?? finding.ask} ${say}`),
    ) ?? [];
  const lines = fc.oneof(
    fc.string({ maxLength: 200, unit: 'grapheme' }),
    fc
      .array(fc.constantFrom(...known, ...choices), { minLength: 1, maxLength: 4 })
      .map((parts) => parts.join(', ')),
  );

  it('crashes nothing, and changes nothing of the batch without a yes', async () => {
    const check = fc.asyncProperty(lines, async (line) => {
      const talk = talkFrom(settling);
      const before = batchFacts(talk);
      await talk.say('trouble: poor yield', 'no');
      await talk.say('leave it', `trouble: ${line}`);
      expect(talk.trouble?.complaint).toBeUndefined();
      expect(talk.trouble?.found ?? []).toEqual([]);
      const { alarm: _alarm, ...after } = batchFacts(talk);
      expect(after).toEqual(Object.fromEntries(Object.entries(before).filter(([id]) => id !== 'alarm')));
    });
    await fc.assert(check, { seed: 20260302, numRuns: 25 });
  });

  it('counts for nothing by itself where it is asked for', async () => {
    const check = fc.asyncProperty(lines, async (line) => {
      const talk = await new TroubleTalk().openAlone();
      await talk.say('no danger', line);
      expect(talk.trouble?.complaint).toBeUndefined();
      expect(talk.trouble?.found ?? []).toEqual([]);
      talk.expectReplayMatches();
    });
    await fc.assert(check, { seed: 20260302, numRuns: 60 });
  });
});
