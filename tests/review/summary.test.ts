import { describe, expect, it, vi } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { endsOf } from '../../src/review/batch-end.ts';
import { tellStory } from '../../src/review/story.ts';
import { RowBuilder } from '../../src/review/summary.ts';
import { book } from '../rulebook/cases.ts';
import { ToldTalk } from '../scenarios/straight-talk.ts';
import { demoFileOf, demoNames } from './demo-logs.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const ends = endsOf(book);

const demoEvents = (batch: string): TalkEvent[] => eventsOf(readJournal(demoFileOf(batch)));

function rowOf(events: readonly TalkEvent[]) {
  const builder = new RowBuilder(ends);
  for (const event of events) builder.take(event.at, { ...event });
  return builder.row();
}

const figureOf = (state: State, ...facts: string[]) =>
  facts.map((fact) => state.figures[fact]?.value).find((value) => value !== undefined);

/** The same, from the state that the talk itself has. */
function fromState(state: State) {
  return {
    stage: state.stage,
    ended: state.ended ?? 'unfinished',
    held: state.held.map(({ stop }) => stop).sort(),
    titration: figureOf(state, 'titrant-koh-equivalent'),
    rawSoap: figureOf(state, 'soap-crude'),
    yield: figureOf(state, 'yield'),
  };
}

function fromRow({ stage, ended, held, values }: ReturnType<typeof rowOf>) {
  const { titration, rawSoap, yield: litres } = values;
  return { stage, ended, held: [...held].sort(), titration, rawSoap, yield: litres };
}

describe('a row counted without folding says what the fold says', () => {
  it.each(demoNames)('wherever the log of %s is cut off', (batch) => {
    const step = makeStep(book);
    const builder = new RowBuilder(ends);
    let state = emptyState;
    for (const [index, event] of demoEvents(batch).entries()) {
      state = step(state, event).state;
      builder.take(event.at, { ...event });
      // A stage is entered before its rules have run; the row moves on when they have.
      if (state.evaluating) continue;
      expect({ record: index + 1, ...fromRow(builder.row()) }).toEqual({
        record: index + 1,
        ...fromState(state),
      });
    }
  });

  it.each(demoNames)('about the stops and the hours of %s', (batch) => {
    const events = demoEvents(batch);
    const story = tellStory(
      book,
      events.map((event, index) => ({ seq: index + 1, event })),
    );
    const row = rowOf(events);
    expect([...row.stops].sort()).toEqual([...new Set(story.stops.map(({ stop }) => stop))].sort());
    for (const { stage, hours, visits } of row.stages) {
      const told = story.stages.filter((one) => one.stage === stage);
      const left = told.map((one) => Date.parse(one.left ?? story.last) - Date.parse(one.at));
      expect(visits, stage).toBe(told.length);
      expect(hours, stage).toBeCloseTo(left.reduce((sum, ms) => sum + ms, 0) / 3_600_000, 2);
    }
    expect(row.waitsCutShort).toBe(story.waits.filter(({ how }) => how === 'early').length);
    expect(row.records).toBe(story.records);
  });
});

describe('what was taken back or put right no longer counts', () => {
  /** A demo batch up to the record before a question was answered the first time. */
  function talkBefore(batch: string, question: string): ToldTalk {
    const events = demoEvents(batch);
    const place = events.findIndex((event) => event.type === 'AnswerGiven' && event.question === question);
    return new ToldTalk(events.slice(0, place));
  }

  const expectSame = (talk: ToldTalk) => expect(fromRow(rowOf(talk.events))).toEqual(fromState(talk.state));

  it('a titration that was changed much later', async () => {
    const talk = talkBefore('clean-first-batch', 'review-wanted');
    const before = rowOf(talk.events).values.titration;
    await talk.session.type('change titrant-2 to 1.8 mL');
    if (talk.state.doubt) await talk.session.type('yes');
    expectSame(talk);
    expect(rowOf(talk.events).values.titration).not.toBe(before);
    expect(rowOf(talk.events).changes).toBe(1);
    await talk.session.type('no');
    expectSame(talk);
    expect(rowOf(talk.events).ended).toBe('finished');
  });

  it('a figure whose answer was taken back, one by one, and then not known', async () => {
    const talk = talkBefore('clean-first-batch', 'fuel-litres-temperature');
    await talk.session.type('20 C');
    expectSame(talk);
    for (let back = 0; back < 3; back += 1) {
      await talk.session.type('back');
      const { asking } = talk.state;
      await talk.session.type('not sure');
      expect(asking).toBeDefined();
      expectSame(talk);
    }
    expect(rowOf(talk.events).notSure).toBe(3);
  });

  it('a step back that a stop bars changes nothing', async () => {
    const held = demoEvents('dangerous-rig-stopped').slice(0, 14);
    const talk = new ToldTalk(held);
    expect(talk.state.held.length).toBeGreaterThan(0);
    await talk.session.type('back');
    await talk.session.type('not sure');
    expectSame(talk);
  });
});

describe('records that are not as they should be', () => {
  const rowFrom = (events: readonly object[]) => {
    const builder = new RowBuilder(ends);
    for (const event of events) builder.take('2026-01-01T00:00:00.000Z', event as { type: string });
    return builder.row();
  };

  it('count for nothing and break nothing', () => {
    const opened = { type: 'BatchOpened', batch: 'odd' };
    const odd = [
      { type: 'AnswerGiven' },
      { type: 'AnswerGiven', question: '__proto__', answer: null },
      { type: 'AnswerChanged', question: 7, answer: [] },
      { type: 'RulesEvaluated' },
      {
        type: 'RulesEvaluated',
        stage: 'wash',
        outcome: { figures: { yield: 'much' }, unsafe: 'R01', true: 3, lost: {} },
      },
      {
        type: 'RulesEvaluated',
        stage: '__proto__',
        outcome: { figures: { yield: { value: 1, unit: 'L' } } },
      },
      { type: 'somethingNew', outcome: 3 },
    ];
    expect(rowFrom([opened, ...odd])).toMatchObject({
      batch: 'odd',
      values: {},
      stops: [],
      ended: 'unfinished',
    });
  });

  it('a talk that was only about a trouble is no batch', () => {
    expect(rowFrom([{ type: 'BatchOpened', batch: 't', purpose: 'trouble' }]).ended).toBe('trouble-only');
  });

  it('what is written in a review, and that it was shown, is of the review in the row and in the story', () => {
    const events = demoEvents('dangerous-rig-stopped');
    const later = { type: 'ReviewShown', at: '2027-01-01T00:00:00.000Z' } as const;
    expect(rowOf([...events, later]).last).toBe(rowOf(events).last);
    const log = [...events, later].map((event, index) => ({ seq: index + 1, event }));
    expect(tellStory(book, log).reviews.map(({ event }) => event.type)).toEqual(['ReviewShown']);
  });

  it('the last review that was signed is named', () => {
    const signed = { type: 'ReviewSigned', verdict: 'ready' };
    expect(rowFrom([{ type: 'BatchOpened', batch: 'b' }, signed]).verdict).toBe('ready');
  });
});
