import { describe, expect, it } from 'vitest';
import { readAnswer } from '../../src/conversation/understanding/read-answer.ts';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { choicesOf } from '../../src/conversation/wording.ts';
import { book } from '../rulebook/cases.ts';
import { SmallTalk } from './small-talk.ts';
import { talkAt } from './understood.ts';

type Wanted = string | number | 'asks' | 'refuses';

function taken(question: string, text: string): Wanted {
  const asked = book.questions[question];
  if (!asked) throw new Error(`no question ${question}`);
  const reading = readAnswer(asked, text);
  if ('notUnderstood' in reading) return 'refuses';
  if (!('sure' in reading)) return 'asks';
  const { sure } = reading;
  if (sure.kind === 'quantity') return Number(sure.value.toFixed(2));
  return sure.kind === 'choice' ? sure.choice : sure.kind === 'yes-no' ? String(sure.yes) : sure.kind;
}

describe('a choice is taken by number, word or synonym', () => {
  it.each([
    ['drain-look', '1', 'clear-water'],
    ['drain-look', '#2', 'milky'],
    ['drain-look', 'clear water', 'clear-water'],
    ['drain-look', 'just water', 'clear-water'],
    ['drain-look', 'it looks milky', 'milky'],
    ['drain-look', 'nothing comes out', 'nothing'],
    ['drain-look', 'gunk', 'sludge'],
    ['drain-look', 'not sure', 'not-sure'],
    ['drain-look', "can't tell", 'not-sure'],
    ['drain-look', 'skip', 'skipped'],
  ])('%s: %j is %s', (question, text, wanted) => {
    expect(taken(question, text)).toBe(wanted);
  });
});

describe('the words that a rule file offers', () => {
  const offered = Object.values(book.questions).flatMap((question) =>
    choicesOf(question).map((choice) => ({ question: question.id, ...choice })),
  );

  it.each(offered.map((one) => [one.question, one.say, one] as const))(
    '%s: %j is taken as itself, and its other words as nothing else',
    (question, say, { id, also }) => {
      const pickedBy = (text: string) => {
        const event = understand(book, { ...talkAt(book, question), alarm: question === 'alarm' }, text);
        if (event?.type !== 'AnswerGiven') return event?.type;
        const { answer } = event;
        return answer.kind === 'choice'
          ? answer.choice
          : answer.kind === 'many'
            ? answer.choices.join()
            : answer.kind;
      };
      expect(pickedBy(say)).toBe(id);
      for (const word of also) expect([id, 'AnswerDoubted', 'AnswerNotUnderstood']).toContain(pickedBy(word));
    },
  );
});

describe('what is not plainly meant is asked about or refused, never taken', () => {
  it.each([
    ['drain-look', 'not clear water', 'refuses'],
    ['drain-look', 'no bubbles', 'refuses'],
    ['drain-look', 'milkey', 'asks'],
    ['drain-look', '9', 'refuses'],
    ['drain-look', 'purple', 'refuses'],
    ['ppe', 'all of it but the face shield', 'refuses'],
    ['ppe', 'everything except goggles', 'refuses'],
    ['element-level', 'probably that much or more', 'asks'],
    ['rested', 'sort of', 'refuses'],
  ])('%s: %j', (question, text, wanted) => {
    expect(taken(question, text)).toBe(wanted);
  });
});

describe('readings come as people write them', () => {
  it.each([
    ['oil-volume', '40 US gal', 151.42],
    ['oil-volume', '150', 150],
    ['oil-temperature', '130F', 54.44],
    ['oil-temperature', 'about 130 f', 54.44],
    ['oil-temperature', '54 °C', 54],
    ['titrant-1', '2 1/2 ml', 2.5],
    ['titrant-1', 'two and a half', 2.5],
    ['titrant-1', '2,5', 2.5],
    ['oil-temperature', '540 F', 'asks'],
    ['oil-temperature', '2000 C', 'refuses'],
    ['oil-temperature', '54 L', 'refuses'],
    ['oil-temperature', 'hot', 'refuses'],
  ])('%s: %j is %s', (question, text, wanted) => {
    expect(taken(question, text)).toBe(wanted);
  });
});

describe('danger is heard at any question', () => {
  it.each([
    'fire!',
    'there is a fire',
    'help me',
    'my hand is burning',
    'he fainted',
    '!',
    'something is wrong',
  ])('%j', async (line) => {
    const talk = await new SmallTalk().open();
    await talk.say('10 L', line);
    expect(talk.events.some(({ type }) => type === 'TroubleReported')).toBe(true);
    // Where the words plainly say what it is the stop holds already; else the list is asked.
    expect(talk.asking === 'alarm' || talk.session.state.held.length > 0).toBe(true);
  });
});

describe('a pause', () => {
  it('is not warned about at a safe place', async () => {
    const talk = await new SmallTalk().open();
    await talk.say('pause');
    expect(talk.session.state.paused).toBe(true);
  });

  it('is warned about where walking away is not safe, and taken when it is said again', async () => {
    const talk = await new SmallTalk().open();
    await talk.say('10 L', '80 C', 'pause');
    expect(talk.session.state.paused).toBe(false);
    expect(talk.said('advice').at(-1)).toBe('Not a safe pause. Take it off the fire.');
    await talk.say('pause');
    expect(talk.session.state.paused).toBe(true);
    talk.expectReplayMatches();
  });
});
