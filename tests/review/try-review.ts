import type { Turn } from '../../src/conversation/effects.ts';
import type { EventBody } from '../../src/conversation/events.ts';
import { findingsOf } from '../../src/review/findings.ts';
import { ReviewTalk } from '../../src/review/review-talk.ts';
import type { Story } from '../../src/review/story.ts';
import { book } from '../rulebook/cases.ts';
import { doubtful } from './doubtful-log.ts';
import { editedStory } from './edited-log.ts';

/** A review in memory, on a disk that can be made to fail. */
export class TryReview {
  readonly turns: Turn[] = [];
  readonly kept: EventBody[] = [];
  readonly talk: ReviewTalk;
  room = Number.POSITIVE_INFINITY;

  constructor(story: Story) {
    this.talk = new ReviewTalk(book, story, 'test', {
      turn: (turn) => this.turns.push(turn),
      changed: () => undefined,
      append: (event) => {
        if (this.room <= 0) throw new Error('the disk is full');
        this.room -= 1;
        this.kept.push(event);
      },
    });
    this.talk.begin();
  }

  async say(...lines: string[]): Promise<string> {
    const from = this.turns.length;
    for (const line of lines) await this.talk.type(line);
    return this.turns
      .slice(from)
      .map(({ text }) => text)
      .join('\n');
  }

  get types(): string[] {
    return this.kept.map(({ type }) => type);
  }

  get heading(): string {
    return this.talk.view().heading ?? '';
  }

  get asks(): string {
    return this.talk.view().question?.ask ?? '';
  }
}

export const doubtfulStory = () => editedStory(book, { set: doubtful });
export const found = findingsOf(book, doubtfulStory());
export const checks = found.map(({ check }) => check);
export const open = () => new TryReview(doubtfulStory());

/** The story of a log after these records of a review. */
export function tookUp(...events: EventBody[]): TryReview {
  const story = doubtfulStory();
  const reviews = events.map((event, index) => ({ record: 900 + index, at: story.last, event }));
  return new TryReview({ ...story, reviews: reviews as Story['reviews'] });
}

export const opened: EventBody = { type: 'ReviewOpened', mentor: 'Mentor A', program: 'p', rules: 'r' };
export const signed: EventBody = {
  type: 'ReviewSigned',
  mentor: 'Mentor A',
  verdict: 'ready',
  well: 'w',
  change: 'c',
  found: [],
};
