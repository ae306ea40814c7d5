import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { knownToReview, reviewFacts } from '../../src/review/facts.ts';
import { doneWell, findingsOf } from '../../src/review/findings.ts';
import { type Story, tellStory } from '../../src/review/story.ts';
import { reviewFileSchema } from '../../src/rulebook/review-schema.ts';
import { book } from '../rulebook/cases.ts';
import { answerFrom, demoLog, editedStory } from './edited-log.ts';

vi.setConfig({ testTimeout: 120_000 });

const checksOf = (story: Story): string[] => findingsOf(book, story).map(({ check }) => check);

describe('a recorded batch that went well', () => {
  it.each([
    'clean-first-batch',
    'abandoned-and-resumed',
    'dangerous-rig-stopped',
    'high-acid-blended',
    'wet-oil-dried-twice',
    'failed-conversion-second-stage',
  ])('%s raises one false alarm at most', (log) => {
    expect(checksOf(editedStory(book, { log })).length).toBeLessThanOrEqual(1);
  });

  it('gets no finding about what was not reached, wherever its log stops', () => {
    const log = demoLog('clean-first-batch');
    const whole = tellStory(book, log);
    for (const { record, stage } of whole.stages.slice(1)) {
      const found = checksOf(tellStory(book, log.slice(0, record)));
      expect(found.length, `at the door of ${stage}: ${found.join(', ')}`).toBeLessThanOrEqual(1);
    }
  });

  it('is praised for what it measured, and a batch that was given up at the rig for nothing of that', () => {
    const praise = doneWell(book, editedStory(book));
    expect(praise.some((line) => line.startsWith('Three flasks were titrated'))).toBe(true);
    const atTheRig = doneWell(book, editedStory(book, { log: 'dangerous-rig-stopped' }));
    expect(praise.filter((line) => !atTheRig.includes(line)).length).toBeGreaterThan(8);
    expect(atTheRig.join(' ')).not.toMatch(/titrat|oil|methanol check|glycerin|wash/i);
  });

  it('loses the praise of a check that fires, and keeps the others', () => {
    const before = doneWell(book, editedStory(book));
    const after = doneWell(book, editedStory(book, { set: { 'settle-hours': 7 } }));
    expect(before.filter((line) => !after.includes(line))).toHaveLength(1);
  });
});

describe('an answer that one check stops at', () => {
  it('is not praised by another: a weight that used the purity twice is no weight well taken', () => {
    const praisesTheScale = (log: string) =>
      doneWell(book, editedStory(book, { log })).some((line) => line.startsWith('The scale showed'));
    expect(checksOf(editedStory(book, { log: 'planted-too-hot' }))).toContain('M05');
    expect(checksOf(editedStory(book, { log: 'planted-too-hot' }))).not.toContain('M04');
    expect(praisesTheScale('planted-too-hot')).toBe(false);
    expect(praisesTheScale('clean-first-batch')).toBe(true);
  });
});

describe('a finding', () => {
  it('names the values, the answers around it with their records, and what met its condition', () => {
    const story = editedStory(book, { set: { 'alkali-weighed': 1600 } });
    const found = findingsOf(book, story).find(({ check }) => check === 'M04');
    expect(found?.says).toMatch(/^1600\.0\s±\s1\.0\sg was weighed where the sum gives 1440\s±\s30\sg/);
    const weighed = found?.around.find(({ question }) => question === 'alkali-weighed');
    expect(weighed?.record).toBe(story.answers.find(({ question }) => question === 'alkali-weighed')?.record);
    expect(found?.trace.some(({ fact, met }) => fact === 'alkali-gap' && met === true)).toBe(true);
  });

  it('comes in the order of a mentor: danger, then what must be put right, then the rest', () => {
    const set = { 'oil-before-charge': 62, 'conv-temperature': 27, 'settle-hours': 5, blank: 0.7 };
    const found = checksOf(editedStory(book, { set }));
    const place = ['M08', 'M02', 'M11', 'M13'].map((check) => found.indexOf(check));
    expect(place).not.toContain(-1);
    expect(place).toEqual([...place].sort((one, other) => one - other));
  });
});

describe('a talk only about a trouble', () => {
  it('is not reviewed as a batch', () => {
    const opened = { type: 'BatchOpened', batch: 'b', program: 'p', rules: 'r', purpose: 'trouble' } as const;
    const story = tellStory(book, [{ seq: 1, event: { ...opened, at: '2026-03-02T08:00:00.000Z' } }]);
    expect(story.purpose).toBe('trouble');
    expect(checksOf(story)).toEqual([]);
    expect(doneWell(book, story)).toEqual([]);
  });
});

describe('an answer that the maker took back', () => {
  const log = demoLog('clean-first-batch');
  const until =
    log.findIndex(({ event }) => event.type === 'AnswerGiven' && event.question === 'altitude') + 2;
  const next = (event: object) => ({
    seq: until + 1,
    event: { ...event, at: '2026-03-02T09:00:00.000Z' } as TalkEvent,
  });

  it('is marked, and the ones before it are not', () => {
    const story = tellStory(book, [...log.slice(0, until), next({ type: 'AnswerWithdrawn' })]);
    expect(story.answers.at(-1)).toMatchObject({ question: 'altitude', takenBack: { record: until + 1 } });
    expect(story.answers.filter(({ takenBack }) => takenBack)).toHaveLength(1);
  });

  it('is marked when it is put right, with all that came after it', () => {
    const answer = answerFrom(book, 'place', 'shed-open');
    const changed = next({ type: 'AnswerChanged', question: 'place', answer, text: 'open shed' });
    const story = tellStory(book, [...log.slice(0, until), changed]);
    const back = story.answers.filter(({ takenBack }) => takenBack).map(({ question }) => question);
    expect(back[0]).toBe('place');
    expect(back.at(-1)).toBe('altitude');
    expect(story.answers.at(-1)?.takenBack).toBe(undefined);
  });

  it('counts in no check', () => {
    const charge =
      log.findIndex(({ event }) => event.type === 'AnswerGiven' && event.question === 'rxn-temp') + 2;
    const hot = answerFrom(book, 'rxn-temp', 190);
    const before = log
      .slice(0, charge)
      .map((one) =>
        one.event.type === 'AnswerGiven' && one.event.question === 'rxn-temp'
          ? { ...one, event: { ...one.event, answer: hot } }
          : one,
      );
    expect(checksOf(tellStory(book, before))).toContain('M07');
    const right = {
      type: 'AnswerChanged',
      question: 'rxn-temp',
      answer: answerFrom(book, 'rxn-temp', 54),
      text: '54',
    };
    expect(checksOf(tellStory(book, [...before, next(right)]))).not.toContain('M07');
  });
});

describe('the list of facts in the rules', () => {
  const path = new URL('../../rules/review/facts.yaml', import.meta.url).pathname;
  const listed = reviewFileSchema.parse(parse(readFileSync(path, 'utf8'))).facts ?? [];

  it('is the list that the program can work out, with the same words and units', () => {
    const known = Object.entries(reviewFacts).map(([name, { about, unit }]) => ({
      name,
      about,
      ...(unit ? { unit } : {}),
    }));
    const byName = (one: { name: string }, other: { name: string }) => one.name.localeCompare(other.name);
    expect([...listed].sort(byName)).toEqual(known.sort(byName));
  });

  it('holds no fact that no check looks at', () => {
    const words = JSON.stringify(book.review);
    expect(listed.filter(({ name }) => !words.includes(`review.${name}`)).map(({ name }) => name)).toEqual(
      [],
    );
  });
});

describe('a stage that a change undid', () => {
  it('counts neither as come to nor as left behind', () => {
    const log = demoLog('clean-first-batch');
    const reached = tellStory(book, log).stages.find(({ stage }) => stage === 'titrate')?.record ?? 0;
    const answer = answerFrom(book, 'oil-volume-temperature', 50);
    const changed = { type: 'AnswerChanged', question: 'oil-volume-temperature', answer, text: '50' };
    const event = { ...changed, at: '2026-03-03T09:00:00.000Z' } as TalkEvent;
    const before = tellStory(book, log.slice(0, reached));
    const after = tellStory(book, [...log.slice(0, reached), { seq: reached + 1, event }]);
    const seen = (story: Story) => {
      const known = knownToReview(book, story);
      return [known['visited.titrate'], known['left.dewater']];
    };
    expect(seen(before)).toEqual([true, true]);
    expect(seen(after)).toEqual([false, false]);
  });
});
