import type { TalkEvent } from '../conversation/events.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import type { Condition } from '../rulebook/condition.ts';
import type { Hazard, Question } from '../rulebook/rule-schema.ts';

const gone = 'It is no longer in the rules.';

const questionInPlace = (id: string): Question => ({
  id,
  ask: id.replaceAll('-', ' '),
  how: gone,
  answer: { text: true },
  purpose: 'record',
});

function stopInPlace(id: string): Hazard {
  const never: Condition = { fact: `asked.${id}`, operator: 'equal', value: true };
  return {
    id,
    name: 'no-longer-in-the-rules',
    signal: 'DANGER',
    stages: [],
    'safe-when': never,
    say: `Stop ${id}.`,
    stop: gone,
    because: gone,
    source: 'common-practice',
    clear: { ask: [], 'safe-when': never },
  };
}

function questionsIn(event: TalkEvent): string[] {
  return 'question' in event ? [event.question] : [];
}

function stopsIn(event: TalkEvent): string[] {
  return event.type === 'RulesEvaluated' ? event.outcome.unsafe : [];
}

/**
 * A log may speak of questions and stops that the rules of today no longer have. They get a stand-in, so that an old
 * log can still be followed; the book itself comes back where nothing is missing.
 */
export function withStandIns(book: Book, log: readonly Numbered[]): Book {
  const questions = new Set(log.flatMap(({ event }) => questionsIn(event)));
  const stops = new Set(log.flatMap(({ event }) => stopsIn(event)));
  const lostQuestions = [...questions].filter((id) => !Object.hasOwn(book.questions, id));
  const lostStops = [...stops].filter((id) => !book.hazards.some((hazard) => hazard.id === id));
  if (lostQuestions.length + lostStops.length === 0) return book;
  return {
    ...book,
    questions: {
      ...book.questions,
      ...Object.fromEntries(lostQuestions.map((id) => [id, questionInPlace(id)])),
    },
    hazards: [...book.hazards, ...lostStops.map(stopInPlace)],
  };
}
