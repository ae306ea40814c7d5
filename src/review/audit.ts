import type { Effect } from '../conversation/effects.ts';
import { enterStage, occasionOf } from '../conversation/enter-stage.ts';
import type { TalkEvent, TroubleOutcome } from '../conversation/events.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import type { TroubleCase } from '../conversation/trouble/trouble-case.ts';
import type { Book } from '../rulebook/book.ts';
import type { Evaluation, Figure, Occasion } from '../rulebook/evaluation.ts';
import {
  type DifferenceKind,
  evaluationDifferences,
  figuresAfter,
  type Outcome,
  troubleDifferences,
} from './differences.ts';
import { withStandIns } from './stand-ins.ts';
import type { Numbered, Place } from './story.ts';

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

type Pending = Extract<Effect, { do: 'evaluate' | 'weigh' }>;
type Evaluated = Extract<TalkEvent, { type: 'RulesEvaluated' }>;

const otherRules = 'The ways out of a stage, or what a rule does there, were changed.';

/** Folds a log as it was, and notes where the rules of today would say something else. */
class Auditing {
  readonly found = new Map<string, Difference>();
  private readonly today: Today;
  private readonly step: Step;
  private readonly answered: ReadonlySet<string>;
  private readonly foldedBy: Book;
  private state: State = emptyState;
  private pending: Pending | undefined;
  private place: Place = { record: 0, at: '' };
  /** The turn count when the rules were run last: answers since then belong to the next run. */
  private turn = 0;

  constructor(today: Today, log: readonly Numbered[]) {
    this.today = today;
    this.foldedBy = withStandIns(today.book, log);
    this.step = makeStep(this.foldedBy);
    this.answered = new Set(
      log.flatMap(({ event }) => (event.type === 'AnswerGiven' ? [event.question] : [])),
    );
  }

  async take({ seq, event }: Numbered): Promise<void> {
    this.place = { record: seq, at: event.at };
    if (event.type === 'AnswerGiven') this.compareAsked(event.question);
    if (event.type === 'RulesEvaluated') await this.takeRules(event);
    else {
      if (event.type === 'TroubleWeighed') this.compareTrouble(event.outcome);
      this.fold(event);
    }
  }

  private fold(event: TalkEvent): void {
    const { state, effects } = this.step(this.state, event);
    this.state = state;
    const asked = effects.findLast(
      (effect): effect is Pending => effect.do === 'evaluate' || effect.do === 'weigh',
    );
    this.pending = asked ?? this.pending;
  }

  private note({ key: _key, ...outcome }: Outcome, why: () => string): void {
    const { stage } = this.state;
    const name = JSON.stringify([stage, outcome.kind, outcome.id, outcome.now]);
    const before = this.found.get(name);
    if (before) before.times += 1;
    else this.found.set(name, { ...this.place, stage, ...outcome, why: why(), times: 1 });
  }

  /** A question that is no longer there, or one that was never asked in this log and would be now. */
  private compareAsked(question: string): void {
    const { asking } = this.state;
    const note = (id: string, was: string, now: string, why: string) =>
      this.note({ kind: 'question', id, was, now }, () => why);
    if (!Object.hasOwn(this.today.book.questions, question))
      note(question, 'asked', 'not there', 'The rules of today have no such question.');
    if (asking !== undefined && asking !== question && !this.answered.has(asking))
      note(asking, 'never asked', 'asked', 'The log has no answer to it anywhere.');
  }

  private async takeRules(event: Evaluated): Promise<void> {
    const then = event.outcome as Evaluation;
    this.followTo(event.stage);
    if (this.state.stage !== event.stage) {
      // A stage that is gone: its figures count on, and there is nothing to compare with.
      this.state = { ...this.state, figures: figuresAfter(this.state.figures, then) };
      return;
    }
    if (this.pending?.do === 'evaluate') await this.compareRules(this.pending.occasion, then);
    this.fold(event);
    this.turn = this.state.turn;
  }

  /** The log goes on in this stage, wherever the rules of today would be now. */
  private followTo(stage: string): void {
    const { state, foldedBy: book } = this;
    if (state.ended !== undefined) {
      const now = `ends here, ${state.ended}`;
      this.note({ kind: 'way', id: state.stage, was: `on to ${stage}`, now }, () => otherRules);
      this.state = { ...state, ended: undefined };
    }
    if (state.stage === stage) return;
    const known = book.stages.some((one) => one.stage === stage);
    const now = known ? `here, in ${state.stage}` : 'there is no such stage';
    this.note({ kind: 'way', id: stage, was: `on to ${stage}`, now }, () => otherRules);
    if (!known) return;
    const recent = Object.entries(state.answers).filter(([, { turn }]) => turn > this.turn);
    const draft = { book, at: this.place.at, state: this.state, effects: [] };
    enterStage(draft, stage);
    const answers = { ...draft.state.answers, ...Object.fromEntries(recent) };
    this.state = { ...draft.state, answers };
    this.pending = { do: 'evaluate', occasion: occasionOf(this.state) };
  }

  private async compareRules(occasion: Occasion, then: Evaluation): Promise<void> {
    const now = await this.today.evaluate(occasion);
    const outcomes = evaluationDifferences(occasion.figures, then, now, this.today.show);
    for (const outcome of outcomes)
      this.note(outcome, () => this.today.explain(outcome, { occasion, then, now }));
  }

  private compareTrouble(then: TroubleOutcome): void {
    if (this.pending?.do !== 'weigh') return;
    const { trouble, occasion } = this.pending;
    for (const outcome of troubleDifferences(then, this.today.weigh(trouble, occasion)))
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
  for (const numbered of log) {
    try {
      await auditing.take(numbered);
    } catch (error) {
      throw new UnfollowableError(numbered.seq, (error as Error).message);
    }
  }
  return [...auditing.found.values()];
}
