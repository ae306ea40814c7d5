import { afterEach, describe, expect, it } from 'vitest';
import { loadRules } from '../../src/rulebook/load-rules.ts';
import { smallRules } from './small-book.ts';
import { SmallTalk } from './small-talk.ts';

let talk: SmallTalk;
afterEach(() => talk.expectReplayMatches());

async function begin(...lines: string[]): Promise<void> {
  talk = await new SmallTalk().open();
  await talk.say(...lines);
}

describe('a talk', () => {
  it('asks the first question at once', async () => {
    await begin();
    expect(talk.asking).toBe('amount');
  });

  it('tells a figure when it is first known, with its unit and ±', async () => {
    await begin('10 L');
    expect(talk.said('figure')).toEqual(['Half is 5.0 ± 0.5 L (1.32 ± 0.13 gal).']);
    expect(talk.asking).toBe('heat');
  });

  it('asks again after the wait that advice demands', async () => {
    await begin('10 L', '80 C');
    expect(talk.said('advice')[0]).toContain('Let it cool, it shows 80');
    expect(talk.session.state.waiting).toMatchObject({ question: 'heat', minutes: 10, fixed: false });
    await talk.wait();
    expect(talk.asking).toBe('heat');
    await talk.say('80 C');
    expect(talk.said('advice')).toHaveLength(2);
  });

  it('notes a wait that was cut short', async () => {
    await begin('10 L', '80 C');
    talk.clock.pass(6);
    await talk.say('ready');
    expect(talk.asking).toBe('heat');
    expect(talk.said('note')[0]).toContain('instead of 10');
  });

  it('asks back before a wait is cut short by more than half, and takes only a yes', async () => {
    await begin('10 L', '80 C', 'ready');
    expect(talk.asking).toBeUndefined();
    expect(talk.said('asks-back').at(-1)).toContain('It has been 0 of 10');
    await talk.say('ok');
    expect(talk.asking).toBeUndefined();
    await talk.say('yes');
    expect(talk.asking).toBeUndefined();
    await talk.say('ready', 'yes');
    expect(talk.asking).toBe('heat');
    talk.expectReplayMatches();
  });

  it('goes on to the next stage when its way out is open', async () => {
    await begin('10 L', '50 C');
    expect(talk.session.state.stage).toBe('pour');
    expect(talk.asking).toBe('lid');
  });

  it('does not go on without a reading that decides: not sure is asked again', async () => {
    await begin('10 L', 'not sure');
    expect(talk.session.state.stage).toBe('warm');
    expect(talk.asking).toBe('heat');
    expect(talk.said('asks-back')[0]).toContain('cannot go on');
  });

  it('ends when the last stage leaves to the end, and says so', async () => {
    await begin('10 L', '50 C', 'shut', 'blue');
    expect(talk.session.state.ended).toBe('finished');
    expect(talk.said('advice')).toContain('Well poured.');
  });

  it('takes nothing for an empty line', async () => {
    await begin('', '   ');
    expect(talk.asking).toBe('amount');
    expect(talk.events).toHaveLength(1);
  });
});

describe('a stop', () => {
  it('holds the batch until its own question clears it', async () => {
    await begin('10 L', '50 C', 'open');
    expect(talk.session.state.held.map((hold) => hold.stop)).toEqual(['S2']);
    expect(talk.asking).toBe('lid');
    await talk.say('open');
    expect(talk.said('stop')[1]).toContain('Not yet.');
    await talk.say('shut');
    expect(talk.session.state.held).toEqual([]);
    expect(talk.asking).toBe('cup');
  });

  it('takes not sure as unsafe', async () => {
    await begin('10 L', '50 C', 'not sure');
    expect(talk.session.state.held).toHaveLength(1);
  });

  it('cannot be left by going back', async () => {
    await begin('10 L', '50 C', 'open', 'back');
    expect(talk.session.state.held).toHaveLength(1);
    expect(talk.said('asks-back').at(-1)).toContain('A stop is cleared by its own question');
  });

  it('comes before everything when trouble is reported, and a DANGER is cleared only by a typed yes', async () => {
    await begin('10 L', '!');
    expect(talk.asking).toBe('alarm');
    await talk.say('fire');
    expect(talk.session.state.held[0]?.stop).toBe('S1');
    await talk.say('1');
    expect(talk.session.state.held).toHaveLength(1);
    await talk.say('yes');
    expect(talk.session.state.held).toEqual([]);
    expect(talk.asking).toBe('heat');
  });

  it('speaks again when the same trouble is reported a second time', async () => {
    await begin('10 L', '!', 'fire', '1', 'yes', '!', 'fire');
    expect(talk.session.state.held[0]?.stop).toBe('S1');
  });

  it('leaves the place alone after a false alarm', async () => {
    await begin('10 L', '80 C', '!', 'all well');
    expect(talk.session.state.waiting).toMatchObject({ question: 'heat' });
  });
});

describe('beside the question', () => {
  it('goes back one answer, and again', async () => {
    await begin('10 L', '50 C', 'shut', 'back', 'back');
    expect(talk.asking).toBe('heat');
    expect(talk.session.state.stage).toBe('warm');
    await talk.say('40 C');
    expect(talk.asking).toBe('lid');
  });

  it('explains a word, the question, and where the talk is, without losing the place', async () => {
    await begin('what is a pot?', 'how do I do this?', 'where am I', 'why', '?');
    const help = talk.said('help');
    expect(help[0]).toBe('kettle: the vessel of this little house');
    expect(help[1]).toBe('Read the gauge.');
    expect(help[2]).toContain('> Warm the kettle');
    expect(talk.asking).toBe('amount');
  });

  it('shows how the last advice came about, with the answer that met it', async () => {
    await begin('10 L', '80 C', 'how did you get that');
    expect(talk.said('help')[0]).toMatch(/is above 60\s°C .* it was 80\s°C, met/);
  });

  it('keeps a note', async () => {
    await begin('note the gauge is foggy');
    expect(talk.said('note')).toEqual(['Noted: the gauge is foggy']);
  });

  it('asks about a surprising reading and takes the likely meaning on yes', async () => {
    await begin('10 L', '100');
    expect(talk.said('asks-back')[0]).toContain('Did you mean 100 °F');
    await talk.say('yes');
    expect(talk.session.state.answers.heat?.answer).toMatchObject({ kind: 'quantity', unit: 'degC' });
    expect(talk.session.state.stage).toBe('pour');
  });

  it('refuses an impossible reading with the reason', async () => {
    await begin('700 L');
    expect(talk.said('asks-back')[0]).toContain('cannot be');
    expect(talk.asking).toBe('amount');
  });

  it('pauses and can be given up', async () => {
    await begin('pause');
    expect(talk.session.state.paused).toBe(true);
    await talk.session.dispatch({
      type: 'SessionOpened',
      program: 'test',
      rules: talk.book.hash,
      awayMinutes: 1,
    });
    expect(talk.asking).toBe('amount');
    await talk.say('give up: no water');
    expect(talk.session.state.ended).toBe('abandoned');
  });
});

describe('a question that only decides', () => {
  const withColour = loadRules(
    smallRules.map((file) =>
      file.path === 'stages/pour.yaml'
        ? {
            ...file,
            text: file.text.replace(
              'advice:',
              `  - id: colour
    ask: Which colour is the cup?
    how: Look at it by daylight.
    purpose: decide
    answer: { choice: { red: { say: red }, blue: { say: blue } } }
advice:
  - { id: red-and-hot, when: { all: [{ fact: heat, operator: greaterThan, value: { fact: limit.warm } }, { fact: colour, operator: equal, value: red }] }, say: It shows., because: So it is., source: common-practice }`,
            ),
          }
        : file.path === 'limits/kettle.yaml'
          ? {
              ...file,
              text: `${file.text}\n  - { id: warm, is: Warm water, value: 40, unit: degC, source: common-practice }`,
            }
          : file,
    ),
    '',
  ).book;

  it('is asked while a rule could still come out differently', async () => {
    talk = await new SmallTalk(withColour).open();
    await talk.say('10 L', '50 C', 'shut', 'my cup');
    expect(talk.asking).toBe('colour');
  });

  it('is left out where whatever is answered changes nothing', async () => {
    talk = await new SmallTalk(withColour).open();
    await talk.say('10 L', '30 C', 'shut', 'my cup');
    expect(talk.session.state.ended).toBe('finished');
    expect(talk.session.state.answers.colour).toBeUndefined();
  });
});
