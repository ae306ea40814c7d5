import type { TalkEvent, TroubleOutcome } from '../conversation/events.ts';
import type { TroubleCase } from '../conversation/trouble/trouble-case.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import type { Evaluation, Figure, Occasion } from '../rulebook/evaluation.ts';
import {
  type DifferenceKind,
  evaluationDifferences,
  type Outcome,
  troubleDifferences,
} from './differences.ts';
import { Follower } from './follow-log.ts';
import { withStandIns } from './stand-ins.ts';
import type { Place } from './story.ts';

/** Something that the rules of today would say otherwise than the log says it was. */
export interface Difference extends Place {
  stage: string;
  kind: DifferenceKind;
  id: string;
  was: string;
  now: string;
  why: string;
  /** How often the log shows the same difference; it is told where it shows first. */
  times: number;
}

/** One run of the rules, as it was and as it is. */
export interface Run {
  occasion: Occasion;
  then: Evaluation;
  now: Evaluation;
}

export interface Today {
  book: Book;
  evaluate: (occasion: Occasion) => Promise<Evaluation>;
  weigh: (trouble: TroubleCase, occasion: Occasion) => TroubleOutcome;
  /** A figure with its unit and ±, and how an outcome comes about, in words. */
  show: (figure: Figure) => string;
  explain: (outcome: Outcome, run: Run) => string;
}

/** The rules at hand cannot follow a log beyond some record. */
export class UnfollowableError extends Error {
  override readonly name = 'UnfollowableError';
  readonly record: number;

  constructor(record: number, says: string) {
    super(`These rules cannot follow the log beyond record ${record}: ${says}`);
    this.record = record;
  }
}

type Evaluated = Extract<TalkEvent, { type: 'RulesEvaluated' }>;

/** Goes through a log as it was, and notes where the rules of today would say something else. */
class Auditing {
  readonly found = new Map<string, Difference>();
  private readonly today: Today;
  private readonly log: readonly Numbered[];
  private readonly follower: Follower;
  private readonly answered: ReadonlySet<string>;
  private place: Place = { record: 0, at: '' };

  constructor(today: Today, log: readonly Numbered[]) {
    this.today = today;
    this.log = log;
    this.follower = new Follower(withStandIns(today.book, log), log);
    this.answered = new Set(
      log.flatMap(({ event }) => (event.type === 'AnswerGiven' ? [event.question] : [])),
    );
  }

  async take(index: number): Promise<void> {
    const { seq, event } = this.log[index] as Numbered;
    this.place = { record: seq, at: event.at };
    this.comeTo(index);
    if (event.type === 'AnswerGiven') this.compareAsked(event.question);
    if (event.type === 'TroubleWeighed') this.compareTrouble(event.outcome);
    if (event.type !== 'RulesEvaluated') this.follower.fold(event);
    else if (this.today.book.stages.some(({ stage }) => stage === event.stage)) {
      await this.compareRules(event);
      this.follower.fold(event);
    }
  }

  private comeTo(index: number): void {
    const strayed = this.follower.comeTo(index);
    if (!strayed) return;
    const { from: id, was, now } = strayed;
    const why = 'The ways out of the stage, or what a rule does there, are not the same.';
    this.note({ kind: 'way', id, was, now }, () => why);
  }

  private note({ key: _key, ...outcome }: Outcome, why: () => string): void {
    const { stage } = this.follower.state;
    const { kind, id, now } = outcome;
    // A figure goes on being another one from stage to stage: it is told once.
    const name = JSON.stringify(kind === 'figure' ? [kind, id] : [kind, id, stage, now]);
    const before = this.found.get(name);
    if (before) before.times += 1;
    else this.found.set(name, { ...this.place, stage, ...outcome, why: why(), times: 1 });
  }

  /** A question that is no longer there, or one that was never asked in this log and would be now. */
  private compareAsked(question: string): void {
    const { asking } = this.follower.state;
    const isUnasked = asking !== undefined && asking !== question && !this.answered.has(asking);
    const note = (id: string, was: string, now: string, why: string) =>
      this.note({ kind: 'question', id, was, now }, () => why);
    if (!Object.hasOwn(this.today.book.questions, question))
      note(question, 'asked', 'not there', 'The rules of today have no such question.');
    if (isUnasked && this.isPlainTalk(asking))
      note(asking, 'never asked', 'asked', 'The log has no answer to it anywhere.');
  }

  /** Whether the stage itself asks: at an alarm or a stop a question may well be left without an answer. */
  private isPlainTalk(asking: string): boolean {
    const { alarm, held, trouble, stage } = this.follower.state;
    const asks = this.today.book.stages.find((one) => one.stage === stage)?.asks ?? [];
    return !alarm && held.length === 0 && !trouble && asks.includes(asking);
  }

  private async compareRules({ outcome }: Evaluated): Promise<void> {
    const { pending } = this.follower;
    if (pending?.do !== 'evaluate') return;
    const { occasion } = pending;
    const then = outcome as Evaluation;
    const now = await this.today.evaluate(occasion);
    for (const one of evaluationDifferences(occasion.figures, then, now, this.today.show))
      this.note(one, () => this.today.explain(one, { occasion, then, now }));
  }

  private compareTrouble(then: TroubleOutcome): void {
    const { pending } = this.follower;
    if (pending?.do !== 'weigh') return;
    for (const outcome of troubleDifferences(then, this.today.weigh(pending.trouble, pending.occasion)))
      this.note(outcome, () => 'The causes, the checks or how likely they are were changed.');
  }
}

/**
 * Folds a log as it was and runs the rules of today at every place where rules were run then.
 * What was said then stays the state of the batch, so one changed rule shows where it alone would differ.
 * @throws UnfollowableError  where the rules of today cannot follow the log
 */
export async function audit(today: Today, log: readonly Numbered[]): Promise<Difference[]> {
  const auditing = new Auditing(today, log);
  for (const [index, { seq }] of log.entries()) {
    try {
      await auditing.take(index);
    } catch (error) {
      throw new UnfollowableError(seq, (error as Error).message);
    }
  }
  return [...auditing.found.values()];
}
