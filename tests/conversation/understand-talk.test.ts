import { afterEach, describe, expect, it } from 'vitest';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { viewOf } from '../../src/conversation/view.ts';
import type { Book } from '../../src/rulebook/book.ts';
import { loadRules } from '../../src/rulebook/load-rules.ts';
import { book } from '../rulebook/cases.ts';
import { smallBook, smallRules } from './small-book.ts';
import { SmallTalk } from './small-talk.ts';
import { talkAt } from './understood.ts';

/** The small house, in which the heat is looked at in both stages, and the kettle's words have a short form. */
const twice: Book = loadRules(
  smallRules.map((file) =>
    file.path === 'stages/pour.yaml'
      ? { ...file, text: file.text.replace('  - use: lid\n', '  - use: lid\n  - use: heat\n') }
      : {
          ...file,
          text: file.text.replace(
            'ask: How much water is in it?',
            'ask: How much water is in it?\n    short: Water?',
          ),
        },
  ),
  '0'.repeat(64),
).book;

let talk: SmallTalk;
afterEach(() => talk?.expectReplayMatches());

async function begin(book: Book, ...lines: string[]): Promise<void> {
  talk = await new SmallTalk(book).open();
  await talk.say(...lines);
}

function taken(question: string): unknown {
  const answer = talk.session.state.answers[question]?.answer;
  return answer?.kind === 'quantity' ? Number(answer.value.toFixed(2)) : answer;
}

describe('gallons', () => {
  it('are asked about once, and remembered', async () => {
    await begin(smallBook, '2 gal');
    expect(talk.said('asks-back')[0]).toContain('US or imperial gallons?');
    await talk.say('yes');
    expect(taken('amount')).toBe(undefined);
    await talk.say('imperial');
    expect(taken('amount')).toBe(9.09);
    await talk.say('change amount to 3 gal');
    expect(taken('amount')).toBe(13.64);
  });

  it.each([['US'], ['us'], ['1'], ['American']])('are settled by %j', async (word) => {
    await begin(smallBook, '2 gal', word);
    expect(taken('amount')).toBe(7.57);
  });

  it('need no question when the first answer says which', async () => {
    await begin(smallBook, '2 imperial gallons');
    expect(taken('amount')).toBe(9.09);
  });

  it('need no question when it was said in advance', async () => {
    talk = new SmallTalk(smallBook);
    talk.session.gallon = 'US';
    await talk.open();
    await talk.say('2 gal');
    expect(taken('amount')).toBe(7.57);
  });
});

describe('a number without its unit', () => {
  it('is settled by the unit alone', async () => {
    await begin(smallBook, '10', 'L');
    expect(taken('amount')).toBe(10);
    await talk.say('50');
    expect(talk.said('asks-back').at(-1)).toContain('50 °C or 50 °F');
    await talk.say('F');
    expect(taken('heat')).toBe(10);
  });
});

describe('the same as last time', () => {
  it('is said back, and taken on a yes', async () => {
    await begin(smallBook, '10 L', '80 C');
    await talk.wait();
    await talk.say('same as last time');
    expect(talk.said('asks-back').at(-1)).toContain('Last time it was: 80');
    expect(talk.asking).toBe('heat');
    await talk.say('yes');
    expect(talk.said('answer').filter((line) => line.startsWith('80'))).toHaveLength(2);
  });

  it('is refused where there is none', async () => {
    await begin(smallBook, 'same as last time');
    expect(talk.said('asks-back')[0]).toContain('no earlier answer');
    expect(talk.asking).toBe('amount');
  });
});

describe('a line that answers several questions', () => {
  it('is said back, and its answers are taken one after the other on a yes', async () => {
    await begin(smallBook, '10 L, and the thermometer shows 50 C');
    expect(talk.said('asks-back')[0]).toContain('I understood:');
    expect(taken('amount')).toBe(undefined);
    await talk.say('yes');
    expect(taken('amount')).toBe(10);
    expect(talk.events.filter((event) => event.type === 'AnswerGiven')).toHaveLength(2);
    expect(talk.session.state.stage).toBe('pour');
    expect(talk.session.state.offered).toEqual([]);
  });

  it('is forgotten when it is not confirmed', async () => {
    await begin(smallBook, '10 L, and the thermometer shows 50 C', 'no', '12 L');
    expect(taken('amount')).toBe(12);
    expect(talk.asking).toBe('heat');
  });

  it('names what it could not place', async () => {
    await begin(smallBook, '10 L, the thermometer is broken');
    expect(talk.said('asks-back')[0]).toContain('"the thermometer is broken" I leave out');
  });

  it('answers nothing ahead once a stop holds', async () => {
    await begin(twice, '10 L', '50 C', 'open, the thermometer shows 40 C', 'yes');
    expect(talk.session.state.held.map((hold) => hold.stop)).toEqual(['S2']);
    await talk.say('shut');
    expect(talk.session.state.answers.heat?.status).toBe('known');
  });
});

describe('a reading far from what the question names', () => {
  const figures = { 'alkali-now': { value: 1450, unit: 'g' as const, plusMinus: 20 } };
  const state = { ...talkAt(book, 'alkali-weighed'), figures };

  it.each([
    ['1.45 kg', 'AnswerGiven'],
    ['1500 g', 'AnswerGiven'],
    ['1.9 kg', 'AnswerDoubted'],
    ['900 g', 'AnswerDoubted'],
  ])('%s: %s', (text, wanted) => {
    expect(understand(book, state, text)?.type).toBe(wanted);
  });
});

describe('beside the question', () => {
  it('says how sure the last figure is, and what its ± comes from', async () => {
    await begin(smallBook, '~', '10 L', 'how sure');
    expect(talk.said('help')[0]).toContain('not worked anything out');
    expect(talk.said('help')[1]).toBe(
      'Half of the water: 5.0 ± 0.5 L (1.32 ± 0.13 gal), that is 10 % of it. Most of the ± comes from How much water is in it? 10.0 ± 1.0 L (2.6 ± 0.3 gal).',
    );
  });

  it('says what is waited for, and until when', async () => {
    await begin(smallBook, 't', '10 L', '80 C', 'timers');
    expect(talk.said('help')[0]).toContain('Nothing is being waited for');
    expect(talk.said('help')[1]).toContain('Waiting 10 min for');
    expect(talk.said('help')[1]).toContain('10 min to go, until 08:10 UTC');
  });

  it('says what is left', async () => {
    await begin(smallBook, 'what is left');
    expect(talk.said('help')[0]).toContain('- What does the thermometer show?');
    expect(talk.said('help')[0]).toContain('Stages that may follow: Pour.');
  });

  it('switches the wording', async () => {
    await begin(twice, 'short');
    expect(viewOf(twice, talk.session.state).question?.ask).toBe('Water?');
    await talk.say('long');
    expect(viewOf(twice, talk.session.state).question?.ask).toBe('How much water is in it?');
  });
});
