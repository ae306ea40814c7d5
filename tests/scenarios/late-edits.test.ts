import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { PreparedAnswers } from '../../src/commands/answers-file.ts';
import { runAnswers } from '../../src/commands/run-answers.ts';
import { SmallTalk } from '../conversation/small-talk.ts';
import { book } from '../rulebook/cases.ts';
import { essence } from './essence.ts';

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

describe('an early answer put right late gives the same state as having answered so at first', () => {
  it.each([
    ['titrant-2', '1.8 mL'],
    ['blank', '0.2 mL'],
    ['altitude', '900 m'],
    ['heater-power', '5 kW'],
    ['weather-temperature', '20 C'],
  ])('%s, %s', async (question, to) => {
    const changed = await talkUpTo('alkali-weighed');
    await changed.say(`change ${question} to ${to}`);
    const straight = await talkUpTo('alkali-weighed', { [question]: to });
    expect(essence(changed.session.state)).toEqual(essence(straight.session.state));
    expect(changed.said('note').at(-1)).toContain('Changed');
    changed.expectReplayMatches();
  });
});
