import type { Numbered } from '../../src/journal/read.ts';
import { type Story, tellStory } from '../../src/review/story.ts';
import type { Book } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';
import { ToldTalk } from '../scenarios/straight-talk.ts';
import { demoLog } from './edited-log.ts';

/** A demo batch as it stood when a question was about to be answered (the first time), in a talk that can go on. */
export function demoBefore(batch: string, question: string): ToldTalk {
  const events = demoLog(batch).map(({ event }) => event);
  const place = events.findIndex((event) => event.type === 'AnswerGiven' && event.question === question);
  if (place < 0) throw new Error(`${batch} never asks ${question}`);
  return new ToldTalk(events.slice(0, place));
}

/** Types lines an hour later; a change that is asked back about is confirmed. */
export async function typeInto(talk: ToldTalk, ...lines: string[]): Promise<ToldTalk> {
  talk.now = new Date(Date.parse(talk.now) + 3_600_000).toISOString();
  for (const line of lines) {
    await talk.session.type(line);
    if (talk.state.doubt) await talk.session.type('yes');
  }
  return talk;
}

export const logOf = ({ events }: ToldTalk): Numbered[] =>
  events.map((event, index) => ({ seq: index + 1, event }));

export const storyOf = (talk: ToldTalk, rules: Book = book): Story => tellStory(rules, logOf(talk));
