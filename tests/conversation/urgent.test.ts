import { describe, expect, it } from 'vitest';
import { understand } from '../../src/conversation/understanding/understand.ts';
import { isUrgent } from '../../src/conversation/understanding/urgent.ts';
import { choicesOf } from '../../src/conversation/wording.ts';
import { book } from '../rulebook/cases.ts';
import { SmallTalk } from './small-talk.ts';
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
  'stinks of methanol',
  'reeks of meth',
  'it stinks of alcohol in here and im dizzy',
  'shed still stinks of methanol, heater is on in there',
  'the condenser water stopped and the vent is blowing steam',
  'reactor gone to 155F',
  'i can see a shimmer over the drum, no flame but its hot',
  'lid blew off',
  'got some lye on my glove and it burns a bit',
  'methoxide on my boot, it burns',
  'popping again real hard',
  'my head is splitting',
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
  'it burns well in the heater now',
  'no smell of methanol',
  'the wvo pongs of bad eggs',
  'the condenser is on',
  'the lid came with the drum',
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

describe('at the alarm', () => {
  const atAlarm = { ...talkAt(book, 'drain-look'), asking: 'alarm', alarm: true };
  const taken = (line: string) => understand(book, atAlarm, line);

  it.each([
    ['i can see a shimmer over the drum, no flame but its hot', 'fire'],
    ['shed stinks of meth and ive got a banging headache, also the fuel came out soapy', 'person-hurt'],
    ['shed reeks of methanol and my head is splitting', 'person-hurt'],
    ['got some lye on my glove and it burns a bit', 'person-hurt'],
    ['my eyes are burning', 'person-hurt'],
    ['my hand is burning', 'person-hurt'],
    ['the garage is on fire and my hand is burned', 'fire'],
  ])('%j is taken as %s at once', (line, choice) => {
    expect(taken(line)).toMatchObject({ type: 'AnswerGiven', question: 'alarm', answer: { choice } });
  });

  it.each([
    'pump is making a gravel rattling noise while mixing the reaction, temp is 148F, suction line hot',
    'ok i checked the KOH against KHP and its bang on',
    'the condenser water stopped and the vent is blowing steam',
    'reactor gone to 155F',
    'lid blew off',
    'stinks of methanol',
  ])('%j is not talked down to no danger', (line) => {
    const event = taken(line);
    expect(JSON.stringify(event)).not.toMatch(/all-well|not-right|all is well|Nobody is in danger/);
  });

  it.each(['false alarm', 'never mind', 'nothing wrong', '10'])('%j is a false alarm', (line) => {
    expect(taken(line)).toMatchObject({ answer: { choice: 'all-well' } });
  });
});

describe('a cry in the middle of a batch', () => {
  it.each([
    ['methoxide on my boot, something is wrong, it burns', 'person-hurt'],
    ['something is wrong, it stinks of alcohol in here and im dizzy', 'person-hurt'],
    ['there is smoke', 'fire'],
  ])('%j needs no list: it is dealt with as %s', async (line, choice) => {
    const talk = await new SmallTalk(book).open();
    await talk.say('a learner', line);
    expect(talk.session.state.past.at(-1)?.answer).toMatchObject({ choice });
    expect(talk.session.state.held.length).toBeGreaterThan(0);
    talk.expectReplayMatches();
  });

  it('that does not say plainly what it is leads to the list', async () => {
    const talk = await new SmallTalk(book).open();
    await talk.say('a learner', 'reactor gone to 155F');
    expect([talk.asking, talk.session.state.held]).toEqual(['alarm', []]);
  });

  it('the same again while its wait runs begins the wait anew', async () => {
    const talk = await new SmallTalk(book).open();
    await talk.say('a learner', '!', 'popping');
    for (let line = 0; line < 6 && !talk.session.state.waiting?.fixed; line += 1) {
      await talk.say(talk.session.state.doubt ? 'yes' : '1');
    }
    const { waiting } = talk.session.state;
    expect(waiting?.fixed).toBe(true);
    talk.clock.pass(10);
    await talk.say('popping again real hard', 'popping');
    expect(
      Date.parse(talk.session.state.waiting?.since ?? '') - Date.parse(waiting?.since ?? ''),
    ).toBeGreaterThan(10 * 60_000 - 1);
    expect(talk.said('note').at(-1)).toContain('begins anew');
  });
});
