import { afterEach, describe, expect, it } from 'vitest';
import { SmallTalk } from './small-talk.ts';

let talk: SmallTalk;
afterEach(() => talk.expectReplayMatches());

describe('what if', () => {
  it('shows what would change and changes nothing', async () => {
    talk = await new SmallTalk().open();
    await talk.say('10 L');
    const before = talk.session.state;
    await talk.say('what would 4 L more do?');
    expect(talk.said('help')[0]).toContain('14.0 ± 1.0 L');
    expect(talk.said('help')[0]).toMatch(/Half of the water.*7\.0 ± 0\.5 L.* instead of 5\.0 ± 0\.5 L/);
    expect(talk.session.state.answers).toEqual(before.answers);
    expect(talk.session.state.figures).toEqual(before.figures);
    expect(talk.asking).toBe('heat');
  });

  it('names the answer that is meant, and says what advice and stops would come', async () => {
    talk = await new SmallTalk().open();
    await talk.say('10 L', '50 C', 'what if the lid were open');
    expect(talk.said('help')[0]).toContain('Stop S2 would hold: Shut the lid.');
    expect(talk.session.state.held).toEqual([]);
  });

  it('asks which answer is meant when it cannot tell', async () => {
    talk = await new SmallTalk().open();
    await talk.say('what if the moon is full');
    expect(talk.said('asks-back')[0]).toContain('What if which answer?');
  });

  it('takes a difference of temperatures as a difference', async () => {
    talk = await new SmallTalk().open();
    await talk.say('10 L', '50 C', 'what if the heat were 60 C');
    await talk.say('what would 18 F more do for heat');
    const asked = talk.events.filter((event) => event.type === 'WhatIfAsked');
    expect(asked.at(-1)?.type === 'WhatIfAsked' && asked.at(-1)).toMatchObject({
      question: 'heat',
      answer: { unit: 'degC' },
    });
    const last = asked.at(-1);
    if (last?.type === 'WhatIfAsked' && last.answer.kind === 'quantity')
      expect(last.answer.value).toBeCloseTo(60, 6);
  });

  it('works a sum out beside the question', async () => {
    talk = await new SmallTalk().open();
    await talk.say('calc titration titrant=3mL reagent=NaOH', 'calc titration titrant=3');
    expect(talk.said('help')[0]).toMatch(/acidValue\s+4\.6 ± 0\.2 mg KOH\/g/);
    expect(talk.said('help')[1]).toContain('needs its unit');
    expect(talk.asking).toBe('amount');
  });
});

describe('a figure whose ± reaches over a threshold', () => {
  it('is called close, and the measurement that would settle it is named', async () => {
    talk = await new SmallTalk().open();
    await talk.say('10.2 L');
    expect(talk.said('advice').at(-1)).toMatch(
      /^Close to the line: Half of the water: 5\.1 ± 0\.5 L .*the line is 5 L.* would settle it: How much water/,
    );
  });

  it('is not called close when it is clearly on one side', async () => {
    talk = await new SmallTalk().open();
    await talk.say('14 L');
    expect(talk.said('advice').join()).not.toContain('Close to the line');
  });
});
