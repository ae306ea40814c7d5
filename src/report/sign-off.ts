import type { EventBody } from '../conversation/events.ts';
import type { Place, Story } from '../review/story.ts';

type Review<T extends EventBody['type']> = Place & { event: Extract<EventBody, { type: T }> };

export function reviewEvents<T extends Story['reviews'][number]['event']['type']>(
  story: Story,
  type: T,
): Review<T>[] {
  return story.reviews.filter((one): one is Review<T> & Story['reviews'][number] => one.event.type === type);
}

/** The last sign-off; earlier ones stay in the log. */
export function signOff(story: Story): Review<'ReviewSigned'> | undefined {
  return reviewEvents(story, 'ReviewSigned').at(-1);
}

/** Whoever had the log open for a review when a comment was made. */
export function mentorAt(story: Story, record: number): string {
  const opened = reviewEvents(story, 'ReviewOpened').findLast((one) => one.record < record);
  return opened?.event.mentor ?? 'a mentor';
}
