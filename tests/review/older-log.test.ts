import { describe, expect, it, vi } from 'vitest';
import type { Numbered } from '../../src/journal/read.ts';
import { toMarkdown } from '../../src/report/markdown.ts';
import { doneWell, findingsOf } from '../../src/review/findings.ts';
import { tellStory } from '../../src/review/story.ts';
import type { Book } from '../../src/rulebook/book.ts';
import { entriesOf, reportOfStory } from '../report/made.ts';
import { book } from '../rulebook/cases.ts';
import { demoLog } from './edited-log.ts';
import { TryReview } from './try-review.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

/** A demo log of other rules, in which something had another name. */
function renamed(batch: string, was: string, now: string): Numbered[] {
  const text = JSON.stringify(demoLog(batch));
  const other = text.replaceAll(new RegExp(`(?<=[":])${was}(?=[":])`, 'g'), now);
  if (other === text) throw new Error(`${batch} does not name ${was}`);
  return JSON.parse(other) as Numbered[];
}

/** Everything that is made from a log: its findings, a review, and a report as text. */
async function allOf(rules: Book, log: readonly Numbered[]) {
  const story = tellStory(rules, log);
  const findings = findingsOf(rules, story);
  const review = new TryReview(story);
  await review.say('Mentor A');
  for (const { stage } of rules.stages) await review.say(`show ${stage}`);
  const report = reportOfStory(story, findings);
  const checks = findings.map(({ check }) => check);
  return { story, checks, praise: doneWell(rules, story), report, text: toMarkdown(report) };
}

const rig = 'dangerous-rig-stopped';

describe('a log that names what the rules no longer have can be reviewed and reported', () => {
  it.each(['R06', 'R14', 'R04-burner'])('the stop %s', async (stop) => {
    const now = await allOf(book, renamed(rig, stop, 'R99'));
    const then = await allOf(book, demoLog(rig));
    expect(now.story.stops.map((told) => told.stop)).toContain('R99');
    expect(entriesOf(now.report, 'stops').find(({ item }) => item.includes('R99'))).toMatchObject({
      item: 'DANGER: R99 no longer in the rules',
      against: 'It is no longer in the rules.',
    });
    // What cleared it then is not known now: that is no reason to accuse anybody.
    expect(now.checks).toEqual(then.checks);
  });

  it('a stop that the rules had and have no more', async () => {
    const rules = { ...book, hazards: book.hazards.filter(({ id }) => id !== 'R06') };
    const { story, text } = await allOf(rules, demoLog(rig));
    expect(story.book.hazards.some(({ id }) => id === 'R06')).toBe(true);
    expect(text).toContain('R06 no longer in the rules');
  });

  it.each([
    ['experience', rig],
    ['oil-before-charge', 'clean-first-batch'],
  ])('the question %s', async (question, batch) => {
    const { report } = await allOf(book, renamed(batch, question, `${question}-once`));
    const name = `${question}-once`.replaceAll('-', ' ');
    const answer = entriesOf(report, 'answers').find(({ item }) => item === name);
    expect(answer?.value).toMatch(/./);
  });

  it('a stage, in the log or in the rules', async () => {
    await allOf(book, renamed('clean-first-batch', 'wash', 'rinse'));
    const rules = structuredClone(book);
    rules.stages = rules.stages.filter(({ stage }) => stage !== 'wash');
    for (const { leave } of rules.stages) for (const way of leave) if (way.to === 'wash') way.to = 'dry';
    const { report } = await allOf(rules, demoLog('clean-first-batch'));
    expect(entriesOf(report, 'answers').length).toBeGreaterThan(100);
  });
});
