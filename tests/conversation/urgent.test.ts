import { describe, expect, it } from 'vitest';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { isUrgent } from '../../src/conversation/understanding/urgent.ts';
import { choicesOf } from '../../src/conversation/wording.ts';
import { book } from '../rulebook/cases.ts';
import { talkAt } from './understood.ts';

/** What people type when it goes wrong. Common practice, no source. */
const cries = [
  'my eyes are stinging',
  'got some in my eye',
  'lye in my eye',
  'i got caustic on my hand',
  'it splashed on me',
  'i spilled methoxide on my leg',
  'my skin burns',
  'my hand is burning',
  "i can't breathe",
  'i am coughing a lot',
  "i can't see properly",
  'he passed out',
  'the kid drank some',
  'my son swallowed methanol',
  'I feel sick',
  'i got a headache',
  'he got an electric shock',
  'i cut my finger',
  'i smell something weird',
  'i smell alcohol',
  'it smells like burning',
  'there is smoke',
  'sparks are coming from the switch',
  'we heard a loud bang',
  'bang',
  'hissing loud',
  'the lid is hissing',
  "it's boiling over",
  'its foaming over!',
  'foam coming over the top',
  'the tank is shaking',
  'the drum is bulging',
  'methanol spilled everywhere',
  'the pump is leaking',
  'the heater wont switch off',
  'no flame but the box is smoking',
  'not sure, smells like smoke',
  'help us',
];

/** Calm words that only mention what could be danger. Common practice, no source. */
const calm = [
  'no smoke',
  'no fire anywhere near',
  'nobody is hurt',
  'nothing burning',
  'no sparks',
  'no fumes',
  'it is not hissing',
  'fire extinguisher is on the wall',
  'the fire service knows',
  'i had a beer at lunch',
  'drank a coffee',
  'gloves on my hands',
  'goggles on and shield on my face',
  'I am shaking it',
  'yes',
  '40 gal',
  'water on top',
  'smoke detector is fitted',
  'oil is on the bench',
];

describe('emergencies in plain words', () => {
  it.each(cries)('%j is urgent', (line) => expect(isUrgent(line)).toBe(true));
  it.each(calm)('%j is not', (line) => expect(isUrgent(line)).toBe(false));

  const asked = [
    'drain-look',
    'rested',
    'oil-volume',
    'heating-ended',
    'filled-volume',
    'headspace',
    'titrant-1',
  ];
  const places = asked.flatMap((question) => cries.map((line) => [question, line] as const));

  // Whether somebody has a headache is what this question asks.
  it.each(places.filter(([question, line]) => question !== 'rested' || !line.includes('headache')))(
    'at %s %j opens the alarm',
    (question, line) => {
      expect(understand(book, talkAt(book, question), line)?.type).toBe('TroubleReported');
    },
  );

  it.each(cries)('%j opens the alarm during a wait', (line) => {
    const waiting = {
      question: 'drain-look',
      since: '2026-03-02T08:00:00Z',
      minutes: 30,
      for: 'x',
      fixed: true,
    };
    const state = { ...talkAt(book, 'drain-look'), asking: undefined, waiting };
    expect(understand(book, state, line)?.type).toBe('TroubleReported');
  });

  it.each([
    'my eyes are stinging',
    'lye in my eye',
    'got some in my eye',
    'he passed out',
    'fire!',
    "it's boiling over",
  ])('%j opens the alarm where any words are an answer', (line) =>
    expect(understand(book, talkAt(book, 'maker'), line)?.type).toBe('TroubleReported'),
  );

  it.each([
    'the fire office in the next town',
    'that the oil foamed over',
    'Smoke Lane 3',
    'a leaking hose, mended',
  ])('%j is taken as words where any words are an answer', (line) =>
    expect(understand(book, talkAt(book, 'surprise'), line)?.type).toBe('AnswerGiven'),
  );
});

describe('a plain answer is no alarm', () => {
  const offered = Object.values(book.questions)
    .filter((question) => question.id !== 'alarm')
    .flatMap((question) =>
      choicesOf(question).flatMap((choice) =>
        [choice.say, ...choice.also].map((say) => [question.id, say] as const),
      ),
    );

  it.each(offered)('%s: %j', (question, line) => {
    expect(understand(book, talkAt(book, question), line)?.type).not.toBe('TroubleReported');
  });
});
