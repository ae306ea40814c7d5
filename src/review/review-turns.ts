import type { Turn } from '../conversation/effects.ts';
import type { TalkEvent } from '../conversation/events.ts';
import { safeLine } from '../conversation/safe-text.ts';
import { verdictWords } from './review-questions.ts';

/** What a mentor wrote, as the maker sees it: comments first, then the verdict. Empty where nothing was written. */
export function reviewTurns(events: readonly TalkEvent[]): Turn[] {
  let mentor = 'Your mentor';
  const turns: Turn[] = [];
  for (const event of events) {
    if (event.type === 'ReviewOpened') mentor = safeLine(event.mentor);
    else if (event.type === 'CommentMade') {
      const about = event.check
        ? ` on ${safeLine(event.check)}`
        : event.record
          ? ` on record ${event.record}`
          : '';
      turns.push({ kind: 'note', at: event.at, text: `${mentor}${about}: ${safeLine(event.text)}` });
    } else if (event.type === 'ReviewSigned') {
      const lines = [
        `${safeLine(event.mentor)} reviewed a batch of yours: ${verdictWords[event.verdict]}.`,
        `- Done well: ${safeLine(event.well)}`,
        `- To change: ${safeLine(event.change)}`,
      ];
      turns.push({ kind: 'note', at: event.at, text: lines.join('\n') });
    }
  }
  return turns;
}
