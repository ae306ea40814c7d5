import type { Effect } from '../conversation/effects.ts';
import { enterStage, occasionOf } from '../conversation/enter-stage.ts';
import type { TalkEvent } from '../conversation/events.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';

/** Where the rules at hand would have taken the batch elsewhere than the log goes. */
export interface Strayed {
  /** The stage that the log was in. */
  from: string;
  was: string;
  now: string;
}

type Pending = Extract<Effect, { do: 'evaluate' | 'weigh' }>;
type Evaluated = Extract<TalkEvent, { type: 'RulesEvaluated' }>;

/** Answers and the like never come while the rules of a newly entered stage are being run. */
const makersWords = ['AnswerGiven', 'AnswerChanged', 'AnswerDoubted', 'AnswerNotUnderstood', 'WaitEnded'];

/** What entering a stage takes away. */
const kept = ({ stage, path, told, offered, delays, firm, waited }: State) => ({
  stage,
  path,
  told,
  offered,
  delays,
  firm,
  waited,
});

/** Folds a log under rules that may not be those it was made under, and stays with the log where they part. */
export class Follower {
  state: State = emptyState;
  /** What the rules were asked last, by the rules at hand. */
  pending: Pending | undefined;
  private readonly book: Book;
  private readonly step: Step;
  private readonly log: readonly Numbered[];
  /** The state that the rules were run on last. */
  private stayed: State = emptyState;

  constructor(book: Book, log: readonly Numbered[]) {
    this.book = book;
    this.step = makeStep(book);
    this.log = log;
  }

  /** Brings the state to where the log is before this record. */
  comeTo(index: number): Strayed | undefined {
    const event = this.log[index]?.event;
    if (event?.type === 'RulesEvaluated') return this.comeIn(event);
    const { state, stayed } = this;
    const isAway = state.evaluating || state.ended !== undefined;
    return event && isAway && makersWords.includes(event.type) && stayed.stage !== ''
      ? this.comeBack(index)
      : undefined;
  }

  fold(event: TalkEvent): void {
    if (event.type === 'RulesEvaluated') this.stayed = this.state;
    const { state, effects } = this.step(this.state, event);
    this.state = state;
    const asked = effects.findLast(
      (effect): effect is Pending => effect.do === 'evaluate' || effect.do === 'weigh',
    );
    this.pending = asked ?? this.pending;
  }

  private get whereNow(): string {
    const { state, stayed } = this;
    if (state.ended !== undefined) return `the end, ${state.ended}`;
    if (!state.evaluating) return 'stays here';
    return state.stage === stayed.stage ? 'goes through it again' : `goes on to ${state.stage}`;
  }

  /** The rules at hand left the stage or ended the batch; the log stayed and asked again. */
  private comeBack(index: number): Strayed {
    const { state, stayed } = this;
    const strayed = { from: stayed.stage, was: 'stayed here', now: this.whereNow };
    const again = this.askedAgain(index);
    const answers = Object.entries(stayed.answers).filter(([question]) => !again.includes(question));
    const open = { asking: undefined, waiting: undefined, evaluating: false, ended: undefined };
    this.state = { ...state, ...kept(stayed), ...open, answers: Object.fromEntries(answers) };
    return strayed;
  }

  /** Questions that the log asks once more from here on, in one go: their answers had been forgotten. */
  private askedAgain(index: number): string[] {
    const again: string[] = [];
    for (const { event } of this.log.slice(index)) {
      if (event.type !== 'AnswerGiven') continue;
      if (!(event.question in this.stayed.answers) || again.includes(event.question)) break;
      again.push(event.question);
    }
    return again;
  }

  /** The log enters a stage that the rules at hand would not have entered now. */
  private comeIn({ stage, at }: Evaluated): Strayed | undefined {
    const { state, stayed, book } = this;
    if (state.evaluating && state.stage === stage) return undefined;
    const was = stage === stayed.stage ? 'went through it again' : `went on to ${stage}`;
    if (!book.stages.some((one) => one.stage === stage))
      return { from: stayed.stage, was, now: 'there is no such stage' };
    const strayed = { from: stayed.stage, was, now: this.whereNow };
    const draft = { book, at, state: { ...state, ended: undefined, waiting: undefined }, effects: [] };
    enterStage(draft, stage);
    this.state = draft.state;
    this.pending = { do: 'evaluate', occasion: occasionOf(draft.state) };
    return strayed;
  }
}
