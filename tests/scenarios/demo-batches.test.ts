import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import * as z from 'zod';
import { replay } from '../../src/conversation/replay.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { book } from '../rulebook/cases.ts';
import { type Recorded, recordBatch } from './record-batch.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ hookTimeout: 300_000, testTimeout: 60_000 });

const folder = new URL('../../transcripts-demo/', import.meta.url).pathname;
const plan = z.array(
  z.strictObject({
    batch: z.string(),
    about: z.string(),
    ends: z.enum(['finished', 'rejected', 'abandoned', 'paused']),
    passes: z.array(z.string()).describe('stages in the order they were entered'),
    stops: z.array(z.string()).describe('stops that held the batch, in order'),
    sessions: z.array(z.strictObject({ start: z.string(), answers: z.string() })).min(1),
  }),
);
const batches = plan.parse(parse(readFileSync(`${folder}batches.yaml`, 'utf8')));

/** Regression: the recorded journals are our own output. What they must contain is stated in batches.yaml. */
describe.each(batches)('$batch: $about', ({ batch, ends, passes, stops, sessions }) => {
  let recorded: Recorded;
  beforeAll(async () => {
    const plans = sessions.map(({ start, answers }) => ({ start, answers: folder + answers }));
    recorded = await recordBatch(book, batch, plans);
  });

  it('comes to the end it should', () => {
    expect(recorded.missing.at(-1)).toBe(undefined);
    expect(recorded.state.ended ?? 'paused').toBe(ends);
  });

  it('passes the stages it should', () => {
    expect(recorded.state.path).toEqual(passes);
  });

  it('is held by the stops it should, and by no others', () => {
    const held = recorded.turns.filter(
      (turn) => turn.kind === 'stop' && !/^(Not yet|Still held)\./.test(turn.text),
    );
    expect(held.map((turn) => turn.id)).toEqual(stops);
  });

  it('is what transcripts-demo/ holds', async () => {
    await expect(recorded.journal).toMatchFileSnapshot(`${folder}${batch}.ndjson`);
    await expect(recorded.talk).toMatchFileSnapshot(`${folder}${batch}.txt`);
  });

  it('folds back to the state that the live talk ended in', () => {
    const journal = readJournal(recorded.file);
    expect(replay(makeStep(book), eventsOf(journal)).state).toEqual(recorded.state);
  });
});
