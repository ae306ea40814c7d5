import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import type { Turn } from '../../src/conversation/effects.ts';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { turnLines } from '../../src/plain/lines.ts';
import { Playback } from '../../src/review/playback.ts';
import type { Book } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';
import { essence } from '../scenarios/essence.ts';
import { recordBatch } from '../scenarios/record-batch.ts';
import { demoFolder, demoNames, demoText } from './demo-logs.ts';
import { demoLog } from './edited-log.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000 });

interface Plan {
  batch: string;
  ends: string;
  sessions: { start: string; answers: string }[];
}
const batches = parse(readFileSync(`${demoFolder}batches.yaml`, 'utf8')) as Plan[];

const inLines = (turns: readonly Turn[]) => `${turns.flatMap(turnLines).join('\n').trimStart()}\n`;

function playAll(playback: Playback): Turn[] {
  const turns: Turn[] = [];
  while (!playback.isAtEnd) turns.push(...playback.playOn());
  return turns;
}

/** The state after every prefix of a log, by folding it. */
function statesOf(name: string): State[] {
  const step = makeStep(book);
  const states = [emptyState];
  for (const { event } of demoLog(name)) states.push(step(states.at(-1) ?? emptyState, event).state);
  return states;
}

const asOne = (state: State) => JSON.stringify([essence(state), state.past.length, state.turn, state.told]);

describe('a log played back', () => {
  it.each(demoNames)('%s prints the same turns as the live talk printed', (name) => {
    const playback = new Playback(book, demoLog(name));
    expect(inLines(playAll(playback))).toBe(demoText(name));
    expect(playback.stuck).toBe(undefined);
    expect(playback.position).toBe(demoLog(name).length);
  });

  it.each(batches)('$batch ends as its plan says', ({ batch, ends }) => {
    const playback = new Playback(book, demoLog(batch));
    playAll(playback);
    expect(playback.state.ended ?? 'paused').toBe(ends);
  });

  it.each(demoNames)(
    '%s ends in the state of a fold, which is tested to be that of the live talk',
    (name) => {
      const playback = new Playback(book, demoLog(name));
      playAll(playback);
      const events = demoLog(name).map(({ event }) => event);
      expect(essence(playback.state)).toEqual(essence(replay(makeStep(book), events).state));
    },
  );

  // Talks take seconds each, so only those with several sessions are talked through once more.
  it.each(batches.filter(({ sessions }) => sessions.length > 1))(
    '$batch comes to the essence that a live talk comes to now',
    async ({ batch, sessions }) => {
      const plans = sessions.map(({ start, answers }) => ({ start, answers: demoFolder + answers }));
      const live = await recordBatch(book, batch, plans);
      const playback = new Playback(book, demoLog(batch));
      playAll(playback);
      expect(essence(playback.state)).toEqual(essence(live.state));
    },
  );

  it.each(['wet-oil-dried-twice', 'dangerous-rig-stopped'])(
    '%s stands at any record as a fold of the records up to it, wherever it came from',
    (name) => {
      const log = demoLog(name);
      const folded = statesOf(name).map(asOne);
      const place = fc.integer({ min: -3, max: log.length + 3 });
      fc.assert(
        fc.property(fc.array(place, { minLength: 1, maxLength: 6 }), (places) => {
          const playback = new Playback(book, log);
          for (const wanted of places) {
            playback.goTo(wanted);
            const there = Math.max(0, Math.min(wanted, log.length));
            expect(playback.position).toBe(there);
            expect(asOne(playback.state)).toBe(folded[there]);
          }
        }),
        { numRuns: 25 },
      );
    },
  );

  it('says the same at every record after any way there', () => {
    const log = demoLog('dangerous-rig-stopped');
    const straight = new Playback(book, log);
    const said = log.map(() => straight.playOne());
    const playback = new Playback(book, log);
    fc.assert(
      fc.property(fc.integer({ min: 0, max: log.length - 1 }), (place) => {
        playback.goTo(place);
        expect(playback.playOne()).toEqual(said[place]);
      }),
      { numRuns: 60 },
    );
  });

  it('plays on from one thing said to the next and leaves nothing out', () => {
    const log = demoLog('dangerous-rig-stopped');
    const stepwise = new Playback(book, log);
    while (!stepwise.isAtEnd) {
      const turns = stepwise.playOn();
      if (!stepwise.isAtEnd) expect(turns.length).toBeGreaterThan(0);
    }
    expect(asOne(stepwise.state)).toBe(asOne(statesOf('dangerous-rig-stopped').at(-1) ?? emptyState));
    expect(stepwise.playOn()).toEqual([]);
    expect(stepwise.playOne()).toEqual([]);
  });

  it('knows the record that spoke last before any other', () => {
    const log = demoLog('dangerous-rig-stopped');
    const playback = new Playback(book, log);
    const speaks: number[] = [];
    for (const index of log.keys()) {
      if (playback.playOne().length > 0) speaks.push(index);
      expect(playback.lastSpoken(playback.position)).toBe(speaks.at(-1));
    }
    expect(playback.lastSpoken(0)).toBe(undefined);
  });

  it('answers a request about any moment and stays where it is', () => {
    const log = demoLog('high-acid-blended');
    const playback = new Playback(book, log);
    const requests = ['why-ask', 'how-to', 'how-worked-out', 'how-sure', 'where', 'timers', 'what-is-left'];
    for (let place = 1; place <= log.length; place += 50) {
      playback.goTo(place);
      const before = playback.state;
      for (const request of requests) {
        const event = { type: 'RequestMade', request, at: playback.at } as TalkEvent;
        expect(playback.ask(event).map(({ kind }) => kind)).toEqual(['help']);
      }
      expect(playback.state).toBe(before);
      expect(playback.position).toBe(place);
    }
  });
});

describe('a log of other rules', () => {
  const log = demoLog('dangerous-rig-stopped');
  const question =
    log.flatMap(({ event }) => (event.type === 'AnswerGiven' ? [event.question] : []))[1] ?? '';

  it('is followed past a question and a stop that are gone', () => {
    const { [question]: _gone, ...questions } = book.questions;
    const hazards = book.hazards.filter(({ id }) => id !== 'R14');
    const stages = book.stages.map((stage) => ({
      ...stage,
      asks: stage.asks.filter((id) => id !== question),
    }));
    const other: Book = { ...book, questions, hazards, stages };
    const playback = new Playback(other, log);
    const text = inLines(playAll(playback));
    expect(playback.stuck).toBe(undefined);
    expect(text).toContain(question.replaceAll('-', ' '));
    expect(text).toContain('STOP R14');
  });

  it('ends, with the reason, where it cannot be followed, and can be gone back in', () => {
    const stages = book.stages.filter(({ stage }) => stage !== 'feedstock');
    const clean = demoLog('clean-first-batch');
    const playback = new Playback({ ...book, stages }, clean);
    playAll(playback);
    expect(playback.stuck).toMatch(/no stage "feedstock"/);
    expect(playback.isAtEnd).toBe(true);
    const { position } = playback;
    expect(position).toBeGreaterThan(3);
    playback.goTo(2);
    expect(playback.isAtEnd).toBe(false);
    playback.goTo(clean.length);
    expect(playback.position).toBe(position);
  });
});
