import { describe, expect, it, vi } from 'vitest';
import { verdictWords } from '../../src/review/review-questions.ts';
import { demoBefore, storyOf, typeInto } from '../review/changed-log.ts';
import { demoReport, entriesOf, goingOn, logOf, reportOf, reportOfStory } from './made.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 120_000 });

const plain = (text: string | undefined) => (text ?? '').replaceAll('\u00a0', ' ');
type Talk = ReturnType<typeof demoBefore>;
const madeOf = (talk: Talk) => reportOfStory(storyOf(talk));

describe('a reading that was changed much later', () => {
  const change = 'change rxn-temp to 53 C';

  it('stands on the curve in its own stage, at its own time, in place of the first one', async () => {
    const talk = demoBefore('clean-first-batch', 'flash-cooling');
    const first = storyOf(talk).answers.find(({ question }) => question === 'rxn-temp');
    const { panels } = madeOf(await typeInto(talk, change));
    const reaction = panels.find(({ stages }) => stages.includes('react'));
    const readings = reaction?.readings.filter(({ label }) => label === 'Reaction') ?? [];
    expect(readings.map(({ value, at }) => [value, at])).toEqual([[53, first?.at]]);
    expect(plain(readings[0]?.says)).toBe('53 ± 2 °C (127 ± 4 °F), put right later');
    const elsewhere = panels.filter((panel) => panel !== reaction).flatMap(({ readings }) => readings);
    expect(elsewhere.map(({ label }) => label)).not.toContain('Reaction');
  });

  it('changes nothing else of the curves', async () => {
    const talk = demoBefore('clean-first-batch', 'flash-cooling');
    const drawn = (made: ReturnType<typeof madeOf>) =>
      made.panels.map(({ title, readings, marks }) => [
        title,
        readings.map(({ label, at }) => `${label} ${at}`),
        marks.map(({ kind, at }) => `${kind} ${at}`),
      ]);
    const before = drawn(madeOf(talk));
    expect(drawn(madeOf(await typeInto(talk, change)))).toEqual(before);
  });

  it('is listed with the first one, each under its stage, which was visited once', async () => {
    const talk = await typeInto(demoBefore('clean-first-batch', 'flash-cooling'), change);
    const report = madeOf(talk);
    const entries = entriesOf(report, 'answers');
    const asked = entries.filter(({ item }) => item.includes('in the reacting liquid'));
    const [record] = storyOf(talk).changes.map((one) => one.record);
    expect(asked.map(({ group, value, says }) => [group, plain(value).slice(0, 2), says])).toEqual([
      ['Charge the reactor and let it react', '54', `Put right in record ${record}.`],
      ['Charge the reactor and let it react', '53', undefined],
    ]);
    expect(entries.map(({ group }) => group).join()).not.toContain('visit');
  });

  it('leaves the second visit of a stage the second of three', async () => {
    const talk = demoBefore('wet-oil-dried-twice', 'review-wanted');
    const groups = () => new Set(entriesOf(madeOf(talk), 'answers').map(({ group }) => group));
    const before = groups();
    expect([...before].join()).toContain('visit 2 of 3');
    await typeInto(talk, change);
    expect(groups()).toEqual(before);
  });
});

describe('after a change', () => {
  it('an answer "not sure" is listed once, and what answered it later too', async () => {
    const talk = demoBefore('clean-first-batch', 'settle-hours');
    await typeInto(talk, 'not sure', 'change rxn-temp to 53 C');
    const open = entriesOf(madeOf(talk), 'deviations').filter(
      ({ group }) => group === 'Not sure, or left out',
    );
    const told = storyOf(talk).answers.filter(
      ({ question, answer }) => question === 'settle-hours' && answer.kind === 'not-sure',
    );
    expect(told).toHaveLength(2);
    expect(open.filter(({ record }) => told.some((one) => one.record === record))).toHaveLength(1);
  });

  it('a stop is listed once, as it was the first time', async () => {
    const talk = demoBefore('high-acid-blended', 'review-wanted');
    const stops = entriesOf(madeOf(talk), 'stops');
    const glance = (made: ReturnType<typeof madeOf>) =>
      entriesOf(made, 'glance').find(({ item }) => item === 'Stops')?.value;
    const held = glance(madeOf(talk));
    const after = madeOf(await typeInto(talk, 'change altitude to 120 m'));
    expect(entriesOf(after, 'stops')).toEqual(stops);
    expect(glance(after)).toBe(held);
  });

  it('a second change says what the answer was before, and in which record of the maker', async () => {
    const talk = demoBefore('clean-first-batch', 'flash-cooling');
    await typeInto(
      talk,
      'change rxn-temp to 53 C',
      'change charge-minutes to 31 min',
      'change rxn-temp to 52 C',
    );
    const records = storyOf(talk).changes.map(({ record }) => record);
    const changed = entriesOf(madeOf(talk), 'deviations').filter(
      ({ group }) => group === 'Answers put right',
    );
    expect(plain(changed[2]?.says)).toContain(`It was: 53 ± 2 °C (127 ± 4 °F) (record ${records[0]})`);
    const row = entriesOf(madeOf(talk), 'answers').find(({ record }) => record === records[0]);
    expect(row?.says).toBe(`Put right in record ${records[2]}.`);
  });

  it('a look stands once, at the record in which the maker saw it', async () => {
    const talk = demoBefore('clean-first-batch', 'flash-cooling');
    const looks = entriesOf(madeOf(talk), 'looks');
    expect(entriesOf(madeOf(await typeInto(talk, 'change rxn-temp to 53 C')), 'looks')).toEqual(looks);
  });
});

it('a look is told by the rule about that look, not by one that sums up many', () => {
  const pan = entriesOf(demoReport('clean-first-batch'), 'looks').filter(({ item }) => /pan/i.test(item));
  expect(pan.at(-1)?.says).toMatch(/^Dry by both tests/);
});

it('the verdict reads as it does to the mentor and the learner', () => {
  const signed = { type: 'ReviewSigned', mentor: 'M', well: 'w', change: 'c' } as const;
  for (const verdict of ['repeat-with-someone', 'alone-with-this', 'ready'] as const) {
    const report = reportOf(goingOn(logOf('dangerous-rig-stopped'), [{ ...signed, verdict, found: [] }]));
    expect(entriesOf(report, 'review').find(({ item }) => item === 'Verdict')?.value).toBe(
      verdictWords[verdict],
    );
  }
});
