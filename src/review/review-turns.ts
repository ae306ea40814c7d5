import type { Turn } from '../conversation/effects.ts';
import type { TalkEvent } from '../conversation/events.ts';
import { safeLine } from '../conversation/safe-text.ts';
import { answerInWords } from '../conversation/wording.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import { verdictWords } from './review-questions.ts';

type Comment = Extract<TalkEvent, { type: 'CommentMade' }>;

/** A record in words that the maker knows: what was asked and answered there. */
function recordInWords(book: Book, log: readonly Numbered[], record: number): string {
  const event = log.find(({ seq }) => seq === record)?.event;
  if (event?.type !== 'AnswerGiven' && event?.type !== 'AnswerChanged') return `record ${record}`;
  const asked = book.questions[event.question];
  if (!asked) return `record ${record}`;
  return `record ${record}, "${asked.short ?? asked.ask} ${safeLine(answerInWords(asked, event.answer))}"`;
}

/** What a comment is about; empty where it is about the whole batch. */
function aboutInWords(book: Book, log: readonly Numbered[], { check, record }: Comment): string {
  if (check !== undefined) {
    const name = book.review.find(({ id }) => id === check)?.name.replaceAll('-', ' ');
    return ` on ${safeLine(check)}${name ? `, ${name}` : ''}`;
  }
  return record === undefined ? '' : ` on ${recordInWords(book, log, record)}`;
}

/** What a mentor wrote since it was last shown, as the maker sees it: comments first, then the verdict. */
export function reviewTurns(book: Book, log: readonly Numbered[]): Turn[] {
  const opening = log[0]?.event;
  const batch = opening?.type === 'BatchOpened' ? safeLine(opening.batch) : 'without a name';
  let mentor = 'Your mentor';
  const turns: Turn[] = [];
  for (const { event } of log.slice(log.findLastIndex(({ event }) => event.type === 'ReviewShown') + 1)) {
    if (event.type === 'ReviewOpened') mentor = safeLine(event.mentor);
    else if (event.type === 'CommentMade') {
      const about = aboutInWords(book, log, event);
      turns.push({ kind: 'note', at: event.at, text: `${mentor}${about}: ${safeLine(event.text)}` });
    } else if (event.type === 'ReviewSigned') {
      const lines = [
        `${safeLine(event.mentor)} reviewed it: ${verdictWords[event.verdict]}.`,
        `- Done well: ${safeLine(event.well)}`,
        `- To change: ${safeLine(event.change)}`,
      ];
      turns.push({ kind: 'note', at: event.at, text: lines.join('\n') });
    }
  }
  const [first] = turns;
  return first ? [{ kind: 'note', at: first.at, text: `A review of batch ${batch}:` }, ...turns] : [];
}
