import { factTable } from '../conversation/facts.ts';
import { fill } from '../conversation/wording.ts';
import { minutesFacts } from '../journal/answer-minutes.ts';
import { bothSystems } from '../quantity/show.ts';
import type { Book } from '../rulebook/book.ts';
import { comparable } from '../rulebook/comparable.ts';
import type { Plain } from '../rulebook/condition.ts';
import type { OwnFacts } from '../rulebook/explain.ts';
import type { KnownFacts } from '../rulebook/three-valued.ts';
import { amountFacts } from './facts/amounts.ts';
import { copiedFacts } from './facts/copied.ts';
import { flashFacts } from './facts/flash.ts';
import { reactionFacts } from './facts/reaction.ts';
import { reagentFacts } from './facts/reagents.ts';
import { reasonFacts } from './facts/reasons.ts';
import { settlingFacts } from './facts/settling.ts';
import { stopFacts } from './facts/stops.ts';
import { temperatureFacts } from './facts/temperature.ts';
import { timeFacts } from './facts/times.ts';
import { titrationFacts } from './facts/titration.ts';
import { wasteFacts } from './facts/waste.ts';
import { watchingFacts } from './facts/watching.ts';
import { waterFacts } from './facts/water.ts';
import type { ReviewFacts } from './review-fact.ts';
import type { Story } from './story.ts';
import { hasLeft, hasVisited } from './visits.ts';

const reviewPrefix = 'review.';

function joined(...parts: ReviewFacts[]): ReviewFacts {
  const all = parts.flatMap((part) => Object.entries(part));
  const names = all.map(([name]) => name);
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  if (twice) throw new Error(`two review facts are called "${twice}"`);
  return Object.fromEntries(all);
}

export const reviewFacts: ReviewFacts = joined(
  titrationFacts,
  reagentFacts,
  temperatureFacts,
  waterFacts,
  settlingFacts,
  amountFacts,
  copiedFacts,
  flashFacts,
  reactionFacts,
  reasonFacts,
  stopFacts,
  timeFacts,
  wasteFacts,
  watchingFacts,
);

/** What the facts that only a review has are, by the names that conditions give them. */
export function namedForReview(book: Book): OwnFacts {
  const worked = Object.entries(reviewFacts).map(([name, fact]) => [reviewPrefix + name, fact] as const);
  const visits = book.stages.flatMap(({ stage, title }) => [
    [`visited.${stage}`, { about: `That the batch came to "${title}"` }] as const,
    [`left.${stage}`, { about: `That the batch went on from "${title}"` }] as const,
  ]);
  return Object.fromEntries([...worked, ...visits]);
}

/** Whether each stage was come to, and whether the talk went on from it. */
function stageFacts(story: Story, book: Book): Record<string, boolean> {
  const facts = book.stages.flatMap(({ stage }) => [
    [`visited.${stage}`, hasVisited(story, stage)] as const,
    [`left.${stage}`, hasLeft(story, stage)] as const,
  ]);
  return Object.fromEntries(facts);
}

/** All that the conditions of a review may look at: the facts of the batch as its log ends, and those of the review. */
export function knownToReview(book: Book, story: Story): KnownFacts {
  const table = factTable(story.state);
  const values = { ...table.values, ...minutesFacts(story.opened, table.answeredAt ?? {}) };
  const own: Record<string, Plain | undefined> = stageFacts(story, book);
  for (const [name, { of }] of Object.entries(reviewFacts)) own[reviewPrefix + name] = of(story, book);
  // Limits are what these facts fall back on, so that nothing may be copied here.
  return Object.assign(comparable(book, { ...table, values }, story.state.figures), own);
}

function plainInWords(value: Plain | undefined, fact: ReviewFacts[string] | undefined): string {
  if (value === undefined) return 'not known';
  if (typeof value === 'number') return fact?.unit ? bothSystems(value, fact.unit) : String(value);
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return Array.isArray(value) ? value.join(', ') : value;
}

/** Puts facts into the words of a check, those of the review among them. */
export function fillReview(book: Book, story: Story, known: KnownFacts, words: string): string {
  const own = words.replace(/\{review\.([a-zA-Z0-9-]+)\}/g, (_whole, name: string) =>
    plainInWords(known[reviewPrefix + name], reviewFacts[name]),
  );
  return fill(book, story.state, own);
}
