import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { PreparedAnswers } from '../../src/commands/answers-file.ts';
import type { State } from '../../src/conversation/state.ts';
import { hazardOf } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';
import { SmallTalk } from './small-talk.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 240_000 });

const demo = new URL('../../transcripts-demo/clean-first-batch.answers.yaml', import.meta.url);
const answers = parse(readFileSync(demo, 'utf8')) as ConstructorParameters<typeof PreparedAnswers>[0];

/** Numbers that look random and are the same every time. */
function chances(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return state / 2147483648;
  };
}

/** A question, a wait, an end; or a stop that says that it is cleared in a new session only. */
function hasSomethingToSay({ asking, waiting, held: [hold], ended, paused }: State): boolean {
  const later = hold !== undefined && hazardOf(book, hold.stop).clear.session === 'new';
  return asking !== undefined || waiting !== undefined || later || ended !== undefined || paused;
}

/** Says the clean answer, or that it is not known, and a yes to whatever is asked back. */
async function sayNext(talk: SmallTalk, prepared: PreparedAnswers, unsure: boolean): Promise<string> {
  const { state } = talk.session;
  const asked = state.asking ?? '';
  const line = unsure ? 'dunno' : (prepared.take(asked)?.say ?? 'not sure');
  await talk.say(line);
  for (let tries = 0; talk.session.state.doubt && tries < 3; tries += 1) await talk.say('yes');
  return `${asked}: ${line}`;
}

/** Talks on, not sure of one answer in so many, for so many lines. */
async function wander(
  seed: number,
  share: number,
  lines: number,
): Promise<{ talk: SmallTalk; said: string[] }> {
  const talk = await new SmallTalk(book).open();
  talk.session.gallon = 'US';
  const prepared = new PreparedAnswers(answers);
  const chance = chances(seed);
  const said: string[] = [];
  for (let line = 0; line < lines && !talk.session.state.ended; line += 1) {
    if (talk.asking) said.push(await sayNext(talk, prepared, chance() < share));
    else if (talk.session.state.waiting) await talk.wait();
    else break;
    const state = talk.session.state;
    expect(
      hasSomethingToSay(state),
      `nothing to answer at ${state.stage} after ${said.slice(-4).join(' | ')}`,
    ).toBe(true);
  }
  return { talk, said };
}

describe('a talk on the real rules', () => {
  it.each([
    [1, 0.02],
    [2, 0.05],
    [3, 0.05],
    [4, 0.1],
    [5, 0.3],
    [6, 1],
  ])('always has a question, a wait, a stop or an end, whoever is not sure (%i)', async (seed, share) => {
    const { said } = await wander(seed, share, 260);
    expect(said.length).toBeGreaterThan(20);
  });

  it('asks again, twice over, what a way on rests on', async () => {
    const talk = await new SmallTalk(book).open();
    talk.session.gallon = 'US';
    const prepared = new PreparedAnswers(answers);
    for (let line = 0; line < 200 && talk.asking !== 'screen-runs'; line += 1) {
      if (talk.asking) await sayNext(talk, prepared, false);
      else await talk.wait();
    }
    await talk.say('dunno');
    for (let line = 0; line < 40 && talk.asking && talk.asking !== 'screen-runs'; line += 1) {
      await sayNext(talk, prepared, false);
    }
    expect(talk.asking).toBe('screen-runs');
    await talk.say('dunno');
    expect(talk.asking ?? talk.session.state.waiting?.question).toBe('screen-runs');
  });
});
