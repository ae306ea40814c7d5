import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { essence } from '../scenarios/essence.ts';
import { SmallTalk } from './small-talk.ts';

async function talkOf(...lines: string[]): Promise<SmallTalk> {
  const talk = await new SmallTalk().open();
  await talk.say(...lines);
  return talk;
}

describe('asking about one figure', () => {
  it('= tells how it was worked out, ~ how sure it is, and both say when there is none of that name', async () => {
    const talk = await talkOf('10 L', '= half', '~ half', '= banana', '~ banana');
    const [worked, sure, ...none] = talk.said('help').slice(-4);
    expect(worked).toContain('a / 2');
    expect(sure).toMatch(/5\.0 ± 0\.5 L.*that is 10 % of it/);
    for (const one of none) expect(one).toContain('no figure called "banana"');
  });
});

describe('changing an earlier answer', () => {
  it('works out anew what rests on it and tells the difference', async () => {
    const talk = await talkOf('10 L', '50 C', 'shut', 'change amount to 14 L');
    expect(talk.said('note').at(-1)).toMatch(
      /Changed: .*\n- Half of the water: 7\.0 ± 0\.5 L .* instead of 5\.0/,
    );
    expect(talk.asking).toBe('cup');
    talk.expectReplayMatches();
  });

  it('says what the answer is when no new one is given, and asks which when it cannot tell', async () => {
    const talk = await talkOf('10 L', 'change amount', 'change the moon to full');
    expect(talk.said('asks-back')[0]).toContain('is 10');
    expect(talk.said('asks-back')[1]).toContain('Change which answer?');
  });

  it('tells which figures are no longer known', async () => {
    const talk = await talkOf('10 L', '50 C', 'shut', 'change amount to not sure');
    expect(talk.said('note').at(-1)).toMatch(/- Half of the water: no longer known; it was 5\.0 ± 0\.5 L/);
    expect(talk.session.state.figures.half).toBe(undefined);
    await talk.say('what if amount were 12 L');
    expect(talk.said('help').at(-1)).toContain('Half of the water: 6.0');
  });

  it('is named as not made when something else is typed while it is asked about', async () => {
    const talk = await talkOf('10 L', 'change amount to 300 L', '50 C');
    expect(talk.said('note').at(-1)).toMatch(/^Not changed: .* It stays 10/);
    expect(talk.session.state.answers.heat?.answer).toMatchObject({ value: 50 });
    talk.expectReplayMatches();
  });

  it('is refused while a stop holds', async () => {
    const talk = await talkOf('10 L', '50 C', 'open', 'change amount to 20 L');
    expect(talk.said('asks-back').at(-1)).toContain('Not while a stop holds');
    expect(talk.session.state.held).toHaveLength(1);
  });

  it('leads back where the new answer leads: a wait, and the question after it', async () => {
    const talk = await talkOf('10 L', '50 C', 'shut', 'change heat to 80 C');
    expect(essence(talk.session.state)).toEqual(essence((await talkOf('10 L', '80 C')).session.state));
    talk.expectReplayMatches();
  });

  it('gives the same state as having answered so at first, whatever is edited', async () => {
    const amounts = fc.constantFrom('5 L', '9 L', '20 L');
    const heats = fc.constantFrom('20 C', '45 C', '60 C');
    const edits = fc.array(
      fc.oneof(
        amounts.map((to) => ['amount', to]),
        heats.map((to) => ['heat', to]),
      ),
      { minLength: 1, maxLength: 4 },
    );
    const check = fc.asyncProperty(amounts, heats, edits, async (amount, heat, changes) => {
      const edited = await talkOf(
        amount,
        heat,
        'shut',
        ...changes.map(([what, to]) => `change ${what} to ${to}`),
      );
      const last = (what: string, otherwise: string) =>
        changes.findLast(([one]) => one === what)?.[1] ?? otherwise;
      const straight = await talkOf(last('amount', amount), last('heat', heat), 'shut');
      expect(essence(edited.session.state)).toEqual(essence(straight.session.state));
      edited.expectReplayMatches();
    });
    await fc.assert(check, { seed: 20260302, numRuns: 30 });
  });
});
