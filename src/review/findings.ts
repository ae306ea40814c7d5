import type { Book } from '../rulebook/book.ts';
import type { Trace } from '../rulebook/evaluation.ts';
import type { ReviewCheck } from '../rulebook/review-schema.ts';
import type { SourceRef } from '../rulebook/rule-schema.ts';
import { type Signal, signals } from '../rulebook/signals.ts';
import { judge, type KnownFacts } from '../rulebook/three-valued.ts';
import { traceOf } from '../rulebook/trace-of.ts';
import { fillReview, knownToReview } from './facts.ts';
import { givenByMaker } from './given.ts';
import type { AnswerTold, Story } from './story.ts';

/** What a mentor's eye would stop at. */
export interface Finding {
  check: string;
  name: string;
  signal: Signal;
  /** The numbers of the batch may not be used until this is cleared. */
  fix: boolean;
  says: string;
  because: string;
  source: SourceRef;
  /** The answers to look at, in the order in which they were given. */
  around: AnswerTold[];
  trace: Trace[];
}

/** `out-of-place` where the check is not looked at: it does not apply here, or that is not known. */
type Seen = 'fires' | 'in-order' | 'undecided' | 'out-of-place';

function see({ applies, when }: ReviewCheck, known: KnownFacts): Seen {
  if (applies && judge(applies, known) !== 'true') return 'out-of-place';
  const verdict = judge(when, known);
  if (verdict === 'unknown') return 'undecided';
  return verdict === 'true' ? 'fires' : 'in-order';
}

function answersAround(story: Story, { around }: ReviewCheck): AnswerTold[] {
  return givenByMaker(story).filter((told) => around.includes(told.question));
}

function findingOf(story: Story, known: KnownFacts, check: ReviewCheck): Finding {
  const { id, name, signal, source, when } = check;
  const { book } = story;
  return {
    check: id,
    name,
    signal,
    fix: check.fix === true,
    says: fillReview(book, story, known, check.say),
    because: fillReview(book, story, known, check.because),
    source,
    around: answersAround(story, check),
    trace: traceOf(when, known),
  };
}

/** Danger comes first, then what must be put right before the numbers count, then the rest by its signal word. */
function urgency({ signal, fix }: Finding): number {
  const [worst, ...others] = signals;
  if (signal === worst) return fix ? 0 : 1;
  return fix ? 2 : 3 + others.indexOf(signal);
}

const placeOf = (finding: Finding): number => finding.around[0]?.record ?? Number.POSITIVE_INFINITY;

function inMentorsOrder(one: Finding, other: Finding): number {
  const [place, otherPlace] = [placeOf(one), placeOf(other)];
  const byPlace = place === otherPlace ? 0 : place - otherPlace;
  return urgency(one) - urgency(other) || byPlace || one.check.localeCompare(other.check);
}

/** What the checks find in a log. A talk that was only about a trouble has no batch to review. */
export function findingsOf(book: Book, story: Story): Finding[] {
  if (story.purpose === 'trouble') return [];
  const known = knownToReview(story.book, story);
  return book.review
    .filter((check) => see(check, known) === 'fires')
    .map((check) => findingOf(story, known, check))
    .sort(inMentorsOrder);
}

/** What the praise of a check speaks of. */
function praised({ praise }: ReviewCheck): string[] {
  return [...(praise ?? '').matchAll(/\{([^}]+)\}/g)].map(([, fact = '']) => fact);
}

/**
 * Praise for what the log shows to be in order; a check that nothing in this log is about praises nothing, and
 * nothing is praised that another check stops at.
 */
export function doneWell(book: Book, story: Story): string[] {
  if (story.purpose === 'trouble') return [];
  const known = knownToReview(story.book, story);
  const doubted = book.review
    .filter((check) => see(check, known) === 'fires')
    .flatMap(({ around }) => around);
  return book.review.flatMap((check) => {
    if (!check.praise || see(check, known) !== 'in-order') return [];
    if (praised(check).some((fact) => doubted.includes(fact))) return [];
    const answered = answersAround(story, check).some(
      ({ question, stands }) => stands && known[question] !== undefined,
    );
    return answered ? [fillReview(story.book, story, known, check.praise)] : [];
  });
}
