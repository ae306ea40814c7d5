import { describe, expect, it, vi } from 'vitest';
import { knownToReview } from '../../src/review/facts.ts';
import { doneWell, findingsOf } from '../../src/review/findings.ts';
import { keptByMaker } from '../../src/review/given.ts';
import { reviewTurns } from '../../src/review/review-turns.ts';
import type { Story } from '../../src/review/story.ts';
import { hasLeft, hasVisited, visitsThatCount } from '../../src/review/visits.ts';
import { book } from '../rulebook/cases.ts';
import { talkStraight } from '../scenarios/straight-talk.ts';
import { demoBefore, logOf, storyOf, typeInto } from './changed-log.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000 });

const known = (story: Story, fact: string) => knownToReview(book, story)[fact];

/** Of each stage the visits that count, in the order of the way. */
const way = (story: Story) => visitsThatCount(story).map(({ stage, visit }) => `${stage} ${visit}`);

describe('an answer that is changed in a later stage', () => {
  it('belongs to the stage it was given in', async () => {
    const change = 'change methanol-left to 3 %';
    const atOnce = await typeInto(demoBefore('clean-first-batch', 'methanol-left-again'), change);
    const atTheWash = await typeInto(demoBefore('clean-first-batch', 'soap-crude-acid'), change);
    for (const talk of [atOnce, atTheWash]) {
      const story = storyOf(talk);
      expect(story.answers.find(({ text }) => text === change)).toMatchObject({ stage: 'flash', visit: 1 });
      expect(known(story, 'review.methanol-after-flash')).toBe(3);
    }
  });

  it('leaves no stage visited twice by going the way again', async () => {
    const before = demoBefore('wet-oil-dried-twice', 'review-wanted');
    const straight = way(storyOf(before));
    expect(straight).toContain('dewater 2');
    const story = storyOf(await typeInto(before, 'change rxn-temp to 53 C'));
    expect(way(story)).toEqual(straight);
    expect(story.stages.length).toBeGreaterThan(straight.length);
    expect(visitsThatCount(story).map(({ stage }) => stage)).toEqual(story.state.path);
    const open = visitsThatCount(story).filter(({ left }) => left === undefined);
    expect(open.map(({ stage }) => stage)).toEqual([story.state.stage]);
  });

  it('leaves a stage neither come to nor left that the way goes round now', async () => {
    const talk = await typeInto(
      demoBefore('clean-first-batch', 'alkali-weighed'),
      'change oil-volume-temperature to not sure',
    );
    const story = storyOf(talk);
    expect(story.state.path).toEqual(['rig', 'feedstock', 'dewater']);
    for (const stage of ['titrate', 'methoxide']) {
      expect([hasVisited(story, stage), known(story, `visited.${stage}`)]).toEqual([false, false]);
      expect([hasLeft(story, stage), known(story, `left.${stage}`)]).toEqual([false, false]);
    }
  });

  it('is named in words to the learner, where the mentor comments on it', async () => {
    const talk = await typeInto(demoBefore('clean-first-batch', 'conv-taken'), 'change rxn-temp to 53 C');
    const log = logOf(talk);
    const record = log.find(({ event }) => event.type === 'AnswerChanged')?.seq ?? 0;
    const comment = { type: 'CommentMade', text: 'Why?', record, at: talk.now } as const;
    const said = reviewTurns(book, [...log, { seq: log.length + 1, event: comment }]).at(-1)?.text ?? '';
    expect(said).toContain(`on record ${record}, "Reaction temperature? 53`);
  });

  it('is kept once, in its old place, and so is every answer that the program gave again', async () => {
    const before = demoBefore('clean-first-batch', 'review-wanted');
    const asked = keptByMaker(storyOf(before)).map(({ question }) => question);
    await typeInto(before, 'change rxn-temp to 53 C');
    await typeInto(before, 'change charge-minutes to 31 min', 'change rxn-temp to 52 C');
    const kept = keptByMaker(storyOf(before));
    expect(kept.map(({ question }) => question)).toEqual(asked);
    const righted = kept.filter(({ putsRight }) => putsRight !== undefined);
    expect(righted.map(({ text }) => text)).toEqual(['31 min', 'change rxn-temp to 52 C']);
  });
});

describe('what was said and what held on a way that was gone again', () => {
  it('is still a remark on its stage, and a stop that came up again is known to be the same', async () => {
    const talk = demoBefore('high-acid-blended', 'review-wanted');
    const { stops } = storyOf(talk);
    const story = storyOf(await typeInto(talk, 'change altitude to 120 m'));
    expect(story.stops.filter(({ again }) => !again)).toEqual(stops);
    expect(story.stops.filter(({ again }) => again).map(({ stop }) => stop)).toEqual(
      stops.map(({ stop }) => stop),
    );
    expect(known(story, 'review.danger-passed-over')).not.toBe(true);
  });

  it('is a note in the stage where it was typed', async () => {
    const talk = demoBefore('clean-first-batch', 'settle-hours');
    await typeInto(talk, 'note a thin dark layer below', '24 h', 'change rxn-temp to 53 C');
    expect(storyOf(talk).notes.at(-1)).toMatchObject({ stage: 'settle', visit: 1 });
    expect(known(storyOf(talk), 'review.glycerin-remarked')).toBe(true);
  });

  it('is one trouble, not two, when the report is given again', async () => {
    const talk = demoBefore('clean-first-batch', 'settle-hours');
    await typeInto(talk, 'something is wrong', 'all is well', '24 h', 'change rxn-temp to 53 C');
    expect(talk.events.filter(({ type }) => type === 'TroubleReported')).toHaveLength(2);
    expect(storyOf(talk).troubles.map(({ text }) => text)).toEqual(['something is wrong']);
  });
});

const changes: [batch: string, before: string, line: string][] = [
  ['clean-first-batch', 'review-wanted', 'change rxn-temp to 53 C'],
  ['clean-first-batch', 'review-wanted', 'change oil-before-charge to 61 C'],
  ['clean-first-batch', 'review-wanted', 'change titrant-2 to 1.8 mL'],
  ['high-acid-blended', 'review-wanted', 'change altitude to 120 m'],
  ['high-acid-blended', 'flash-cooling', 'change oil-before-charge to 50 C'],
  ['wet-oil-dried-twice', 'review-wanted', 'change drain-look to clear'],
  ['failed-conversion-second-stage', 'review-wanted', 'change charge-minutes to 31 min'],
  ['planted-too-hot', 'settle-hours', 'change oil-before-charge to 55 C'],
  ['planted-in-a-hurry', 'settle-hours', 'change settle-temperature to 61 C'],
];

describe('what the review knows after a change is what it knows of a batch that was answered so at first', () => {
  it.each(changes)('%s, at %s: %s', async (batch, question, line) => {
    const talk = demoBefore(batch, question);
    const begun = [...talk.events];
    const changed = /^change (\S+)/.exec(line)?.[1];
    const index = talk.state.past.findLastIndex((given) => given.question === changed);
    await typeInto(talk, line);
    const event = talk.events.find(({ type }) => type === 'AnswerChanged');
    if (event?.type !== 'AnswerChanged') throw new Error(`not changed: ${line}`);
    const [edited, straight] = [storyOf(talk), storyOf(await talkStraight(begun, index, event))];
    expect(knownToReview(book, edited)).toEqual(knownToReview(book, straight));
    expect(way(edited)).toEqual(way(straight));
    const checks = (story: Story) => findingsOf(book, story).map(({ check }) => check);
    expect(checks(edited)).toEqual(checks(straight));
    expect(doneWell(book, edited)).toEqual(doneWell(book, straight));
  });
});
