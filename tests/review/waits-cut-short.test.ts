import { expect, it } from 'vitest';
import { findingsOf } from '../../src/review/findings.ts';
import type { Story } from '../../src/review/story.ts';
import { book } from '../rulebook/cases.ts';
import { editedStory } from './edited-log.ts';

/** The first long wait of the clean batch, looked at after so many minutes. */
function cutShort(story: Story, waited: number): Story {
  const wait = story.waits.find(({ minutes }) => minutes === 240);
  if (!wait) throw new Error('the log has no wait of four hours');
  const short = { ...wait, how: 'early' as const, waited };
  return { ...story, waits: story.waits.map((one) => (one === wait ? short : one)) };
}

const checks = (story: Story) => findingsOf(book, story).map(({ check }) => check);
const remark = { text: 'looked early because of the frost', after: 'jar-split' };

it('asks why a wait was cut short when the log does not say', () => {
  expect(checks(cutShort(editedStory(book), 60))).toContain('M38');
});

it('asks nothing when a remark in the same stage says why, or the look came near the end', () => {
  expect(checks(cutShort(editedStory(book, { note: [remark] }), 60))).not.toContain('M38');
  expect(checks(cutShort(editedStory(book), 230))).not.toContain('M38');
});
