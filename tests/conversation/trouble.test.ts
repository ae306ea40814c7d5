import { describe, expect, it } from 'vitest';
import { replay } from '../../src/conversation/replay.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { kettleBook } from '../diagnosis/kettle-trouble.ts';
import { SmallTalk } from './small-talk.ts';

/** A batch of tea, poured and then found wanting. */
async function pouring(...lines: string[]): Promise<SmallTalk> {
  const talk = await new SmallTalk(kettleBook).open();
  await talk.say('5 L', '50 C', 'shut', ...lines);
  return talk;
}

async function warming(...lines: string[]): Promise<SmallTalk> {
  const talk = await new SmallTalk(kettleBook).open();
  await talk.say(...lines);
  return talk;
}

const trouble = (talk: SmallTalk) => talk.session.state.trouble;
const held = (talk: SmallTalk) => talk.session.state.held.map(({ stop }) => stop);

describe('a description', () => {
  it('is said back, and counts only with a yes', async () => {
    const talk = await pouring('trouble: weak tea, and the steam was only wisps');
    expect(talk.said('asks-back').at(-1)).toBe(
      'I understood:\n- Trouble: the tea is weak\n- Did it steam when you took it off? only wisps',
    );
    expect(trouble(talk)).toMatchObject({ complaint: undefined, found: [] });
    await talk.say('yes');
    expect(trouble(talk)).toMatchObject({
      complaint: 'weak',
      found: [{ finding: 'steam-look', choice: 'none' }],
    });
    talk.expectReplayMatches();
  });

  it('said back wrongly: the complaint is taken from the list, and each thing is asked by itself', async () => {
    const talk = await pouring('trouble: weak tea, and the steam was only wisps', 'no');
    expect(talk.asking).toBe('trouble:complaint');
    await talk.say('the tea is weak');
    expect(talk.asking).toBe('check:steam-look');
    await talk.say('thick clouds');
    expect(trouble(talk)?.found).toEqual([{ finding: 'steam-look', choice: 'plenty' }]);
    talk.expectReplayMatches();
  });

  it('that was misread leads to the list, and nobody has to find it there', async () => {
    const talk = await pouring('trouble', 'all well');
    expect(trouble(talk)).toBeUndefined();
    await talk.say('trouble: weak tea', 'no', 'not sure');
    expect(trouble(talk)).toMatchObject({ complaint: undefined, complaintSettled: true, stage: 'pouring' });
    expect(talk.asking).toMatch(/^check:/);
  });
});

describe('in the course of it', () => {
  it('the verdict names the cause, the evidence, the proof, the cure, the danger and what to log', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'a pinch', 'thick clouds');
    const told = [...talk.said('advice'), ...talk.said('note')].join('\n');
    for (const part of [
      'Found (',
      'There are too few leaves in the cup.',
      'speaks strongly for it',
      'Proof: ',
      'Cure: ',
      'Left alone: ',
      'Next time: ',
      'For the log: ',
    ])
      expect(told).toContain(part);
    expect(talk.asking).toBe('trouble:next');
    talk.expectReplayMatches();
  });

  it('gives the doses of this batch where the log has them', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'a spoonful', 'only wisps');
    expect(talk.said('figure').at(-1)).toMatch(/^For this batch: Warm half of it, 2\.5/);
  });

  it('the causes, why, how and = are said without losing the place', async () => {
    const talk = await pouring('trouble: weak tea', 'yes');
    const asking = talk.asking;
    await talk.say('why', 'how', '=');
    const [why, how, soFar] = talk.said('help').slice(-3);
    expect(why).toMatch(/speaks for or against .*Too few leaves \(\d+ % now\)/);
    expect(why).toContain('it tells most for its cost');
    expect(how).toBe('Weigh them.');
    expect(soFar).toMatch(/^So far:\n- 67 % Too few leaves\n- 33 % Water too cool/);
    expect(talk.asking).toBe(asking);
    talk.expectReplayMatches();
  });

  it('"not sure" moves nothing and is not asked again', async () => {
    const talk = await pouring('trouble: weak tea', 'yes');
    const before = trouble(talk)?.outcome?.causes;
    await talk.say('not sure');
    expect(trouble(talk)?.passed).toEqual(['leaves']);
    expect(trouble(talk)?.outcome?.causes).toEqual(before);
    expect(talk.asking).not.toBe('check:leaves');
  });

  it('"does not apply" shuts the gate of the check', async () => {
    const talk = await warming('trouble: boils slowly', 'yes');
    for (let line = 0; line < 5 && talk.asking !== 'check:scale-look'; line += 1) await talk.say('not sure');
    expect(talk.said('advice').at(-1)).toBe('Keep your face off the steam.');
    await talk.say('does not apply here');
    expect(trouble(talk)).toMatchObject({ denied: ['lid-off'] });
    expect(trouble(talk)?.passed).toContain('scale-look');
  });

  it('"back" takes one answer back and asks it again', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'a pinch', 'back');
    expect([talk.asking, trouble(talk)?.found]).toEqual(['check:leaves', []]);
    await talk.say('a spoonful');
    expect(trouble(talk)?.found).toEqual([{ finding: 'leaves', choice: 'many' }]);
    talk.expectReplayMatches();
  });

  it('"leave it" leads back to the batch; "more" looks further than the first cause', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'leave it');
    expect([trouble(talk), talk.asking]).toEqual([undefined, 'cup']);
    await talk.say('trouble: weak tea', 'yes', 'a pinch', 'thick clouds', 'more');
    expect(trouble(talk)?.ruledOut).toEqual(['few-leaves']);
    expect(trouble(talk)?.outcome?.causes[0]).toEqual({ id: 'cool-water', probability: 1 });
    talk.expectReplayMatches();
  });

  it('"cure" goes to the stage where the cure begins', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'a spoonful', 'only wisps', 'cure');
    expect([trouble(talk), talk.session.state.stage]).toEqual([undefined, 'warm']);
    talk.expectReplayMatches();
  });

  it('a pause keeps the place, and the folded talk goes on as the live one', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'not sure', 'pause');
    const { asking } = talk.session.state;
    const again = new SmallTalk(kettleBook);
    again.events.push(...talk.events);
    again.turns.push(...again.session.restore(talk.events));
    await again.session.dispatch({
      type: 'SessionOpened',
      program: 'test',
      rules: kettleBook.hash,
      awayMinutes: 5,
    });
    expect(again.asking).toBe(asking);
    await again.say('only wisps');
    expect(again.asking).toBe('trouble:next');
    again.expectReplayMatches();
  });

  it('a program killed between an answer and the weighing weighs on coming back', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'a pinch');
    const last = talk.events.findLastIndex(({ type }) => type === 'TroubleWeighed');
    const cut = talk.events.slice(0, last);
    expect(replay(makeStep(kettleBook), cut).state.trouble?.weighing).toBe(true);
    const again = new SmallTalk(kettleBook);
    again.events.push(...cut);
    again.turns.push(...again.session.restore(cut));
    await again.session.dispatch({
      type: 'SessionOpened',
      program: 'test',
      rules: kettleBook.hash,
      awayMinutes: 1,
    });
    expect(again.session.state.trouble?.outcome).toEqual(talk.session.state.trouble?.outcome);
    expect(again.asking).toBe(talk.asking);
    again.expectReplayMatches();
  });

  it('no earlier answer is changed meanwhile', async () => {
    const talk = await pouring('trouble: weak tea', 'yes', 'change amount to 9 L');
    expect(talk.said('asks-back').at(-1)).toContain('Say "leave it" first');
    expect(trouble(talk)).toBeDefined();
  });
});

describe('danger', () => {
  it('a dangerous complaint is dealt with before any check, and the finding out goes on after', async () => {
    const talk = await warming('trouble: the bottom glows', 'yes');
    expect(held(talk)).toEqual(['S1']);
    expect(talk.asking).toBe('fire-out');
    await talk.say('leave it');
    expect(held(talk), 'a stop is not left').toEqual(['S1']);
    expect(trouble(talk)).toBeDefined();
    await talk.say('yes', 'yes');
    expect(held(talk)).toEqual([]);
    expect(talk.asking).toMatch(/^check:/);
    talk.expectReplayMatches();
  });

  it('a dangerous answer stops in the middle, and the finding out goes on after', async () => {
    const talk = await warming('trouble: boils slowly', 'yes');
    for (let line = 0; line < 5 && talk.asking !== 'check:sound'; line += 1) await talk.say('not sure');
    expect(talk.asking).toBe('check:sound');
    await talk.say('it crackles and glows');
    expect(held(talk)).toEqual(['S1']);
    await talk.say('yes', 'yes');
    expect(held(talk)).toEqual([]);
    expect(trouble(talk)?.found).toContainEqual({ finding: 'sound', choice: 'crackle' });
    expect(talk.asking).toMatch(/^(check|trouble):/);
    talk.expectReplayMatches();
  });

  it('urgent words in a description open the alarm, are kept, and are said back once all is well', async () => {
    const alone = new SmallTalk(kettleBook);
    await alone.session.dispatch({
      type: 'BatchOpened',
      batch: 'b',
      program: 'test',
      rules: '',
      purpose: 'trouble',
    });
    await alone.say('all well', 'it boils slowly and there is smoke coming from under the kettle');
    expect(alone.asking).toBe('alarm');
    await alone.say('all well');
    expect(alone.asking).toBe('trouble:right');
    expect(alone.said('asks-back').at(-1)).toContain('it takes for ever to boil');
    alone.expectReplayMatches();
  });

  it('an alarm dealt with for those words is not raised a second time by the complaint', async () => {
    const talk = new SmallTalk(kettleBook);
    await talk.session.dispatch({
      type: 'BatchOpened',
      batch: 'b',
      program: 'test',
      rules: '',
      purpose: 'trouble',
    });
    await talk.say('all well', 'the bottom glows and there is smoke', 'fire', 'yes', 'yes');
    expect([held(talk), talk.asking]).toEqual([[], 'trouble:right']);
    await talk.say('yes');
    expect(held(talk)).toEqual([]);
    expect(trouble(talk)?.complaint).toBe('glowing');
    talk.expectReplayMatches();
  });
});

describe('a trouble by itself', () => {
  it('ends when its way on is chosen, and says where the cure begins', async () => {
    const talk = new SmallTalk(kettleBook);
    await talk.session.dispatch({
      type: 'BatchOpened',
      batch: 'b',
      program: 'test',
      rules: '',
      purpose: 'trouble',
    });
    await talk.say('all well', 'weak tea', 'yes', 'pouring it', 'a spoonful', 'only wisps', 'cure');
    expect(talk.said('note').at(-1)).toBe('The cure begins here in the work: Warm the kettle.');
    expect([talk.session.state.ended, talk.asking]).toEqual(['finished', undefined]);
    talk.expectReplayMatches();
  });
});
