import { describe, expect, it } from 'vitest';
import { book } from '../rulebook/cases.ts';
import { follow, rankOf, told } from './told.ts';

const { diagnosis } = book;
if (!diagnosis) throw new Error('rules/diagnosis is empty');
const followed = told.map((story) => ({ story, ...follow(diagnosis, story) }));

// From the handbook literature and from common practice; the source stands beside each story in cases.yaml.
// The stories were written blind. The reading of descriptions was mended against them afterwards; the tables were not.
describe('troubles told by hand', () => {
  it('are many, each with its source and with ids that exist', () => {
    expect(told.length).toBeGreaterThanOrEqual(40);
    const causes = new Set(diagnosis.causes.map(({ id }) => id));
    for (const { name, cause, source, answers, stage, nearest } of told) {
      for (const id of [cause].flat()) expect(causes, name).toContain(id);
      expect(source.length, name).toBeGreaterThan(10);
      expect(
        diagnosis.weighing.stages.map(({ id }) => id),
        name,
      ).toContain(stage);
      for (const [check, choice] of Object.entries(answers))
        expect(Object.keys(diagnosis.findings.find(({ id }) => id === check)?.choices ?? {}), name).toContain(
          choice,
        );
      for (const id of nearest)
        expect(
          diagnosis.complaints.map((one) => one.id),
          name,
        ).toContain(id);
    }
  });

  it('are told in their own words', () => {
    const phrases = diagnosis.causes.flatMap(({ say, name }) => [say.toLowerCase(), name.toLowerCase()]);
    for (const { said, name } of told)
      expect(
        phrases.filter((phrase) => said.toLowerCase().includes(phrase)),
        name,
      ).toEqual([]);
  });

  it('lead to the true cause among the first three in nine of ten', () => {
    const missed = followed
      .filter(({ story, causes }) => rankOf(story, causes) >= 3)
      .map(({ story }) => story.name);
    expect(missed.length / told.length, missed.join('; ')).toBeLessThanOrEqual(0.1);
  });

  it('lead to the true cause first in three of four', () => {
    const first = followed.filter(({ story, causes }) => rankOf(story, causes) === 0);
    expect(first.length / told.length).toBeGreaterThanOrEqual(0.75);
  });

  it('are understood well enough that few makers have to say no', () => {
    expect(followed.filter(({ denied }) => denied).length / told.length).toBeLessThanOrEqual(0.3);
  });
});
