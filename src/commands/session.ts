import type { Effect, Turn } from '../conversation/effects.ts';
import { occasionOf } from '../conversation/enter-stage.ts';
import type { EventBody, TalkEvent } from '../conversation/events.ts';
import { LaterAnswers } from '../conversation/give-again.ts';
import { replay } from '../conversation/replay.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import type { TroubleCase } from '../conversation/trouble/trouble-case.ts';
import type { GallonKind } from '../conversation/understanding/read-context.ts';
import { understand } from '../conversation/understanding/understand.ts';
import { type View, viewOf } from '../conversation/view.ts';
import { withMinutes } from '../journal/answer-minutes.ts';
import type { Book } from '../rulebook/book.ts';
import type { Occasion } from '../rulebook/evaluation.ts';
import type { Clock } from './clock.ts';

/** Timers stand still while the computer sleeps, so that the clock is looked at every minute. */
const longestNap = 60_000;

export interface Keeper {
  append(event: TalkEvent): void;
}

export interface Listener {
  /** A finished piece of the talk. */
  turn(turn: Turn): void;
  /** The state after a step whose effects are done. */
  changed(state: State): void;
}

/** Carries out effects. The only place where the conversation touches disk, engine and clock. */
export class Session {
  state: State = emptyState;
  /** Which gallon is meant, where that was said in advance. */
  gallon: GallonKind | undefined;
  private readonly book: Book;
  private readonly step: Step;
  private readonly keeper: Keeper;
  private readonly clock: Clock;
  private readonly listener: Listener;
  private queue: Promise<void> = Promise.resolve();
  private timer: NodeJS.Timeout | undefined;
  /** What is left to be given again of a change that is being worked out. */
  private later: LaterAnswers | undefined;

  constructor(book: Book, keeper: Keeper, clock: Clock, listener: Listener) {
    this.book = book;
    this.step = makeStep(book);
    this.keeper = keeper;
    this.clock = clock;
    this.listener = listener;
  }

  view(): View {
    return viewOf(this.book, this.state);
  }

  get over(): boolean {
    return this.state.ended !== undefined || this.state.paused;
  }

  /** Folds what the journal holds; nothing is said or written. */
  restore(events: readonly TalkEvent[]): Turn[] {
    const { state, turns } = replay(this.step, events);
    this.state = state;
    return turns;
  }

  /** Takes a typed line. Lines typed ahead wait for their turn. */
  type(line: string): Promise<void> {
    return this.next(async () => {
      // The disk failed between an answer and what the rules said to it: that comes first.
      if (this.state.evaluating) await this.runRules(occasionOf(this.state));
      else if (this.state.trouble?.weighing) await this.weigh(this.state.trouble, occasionOf(this.state));
      if (this.later) await this.giveAgain(this.later);
      const event = this.read(line);
      if (this.waitIsOver()) {
        // Timers stand still while the computer sleeps. What was said to the wait has no question yet.
        await this.happen(this.waitEnded());
        if (event?.type === 'WaitEnded' || event?.type === 'AnswerNotUnderstood') return;
      }
      if (event?.type === 'AnswerChanged') {
        const later = new LaterAnswers(this.book, this.state, event.question);
        try {
          await this.happen(event);
        } finally {
          // Kept, but its rules may not have been: the rest is then given again with the next line.
          if (this.state.changing) this.later = later;
        }
        await this.giveAgain(later);
      } else if (event) await this.happen(event);
    });
  }

  private read(line: string): EventBody | undefined {
    const now = this.clock.timeOfDay?.();
    return understand(this.book, this.state, line, {
      waitedMinutes: this.minutesWaited(),
      ...(now ? { now } : {}),
      ...(this.gallon ? { gallon: this.gallon } : {}),
    });
  }

  dispatch(event: EventBody): Promise<void> {
    return this.next(() => this.happen(event));
  }

  /** Whether the present wait has run out, by the clock. */
  waitIsOver(): boolean {
    const { waiting } = this.state;
    return waiting !== undefined && this.minutesWaited() >= waiting.minutes;
  }

  minutesWaited(): number {
    const { waiting } = this.state;
    return waiting ? Math.max(0, (Date.parse(this.clock.now()) - Date.parse(waiting.since)) / 60_000) : 0;
  }

  stopTimer(): void {
    clearTimeout(this.timer);
  }

  private next(work: () => Promise<void>): Promise<void> {
    const done = this.queue.then(work);
    this.queue = done.catch(() => undefined);
    return done;
  }

  /** Gives the answers after a changed one again, as far as the talk still asks for them, then tells the difference. */
  private async giveAgain(later: LaterAnswers): Promise<void> {
    for (;;) {
      const event = later.next(this.state, this.minutesWaited());
      if (!event) break;
      await this.happen(event);
    }
    await this.happen({ type: 'ChangeFinished' });
    this.later = undefined;
  }

  private async happen(body: EventBody): Promise<void> {
    const event: TalkEvent = { ...body, at: this.clock.now() };
    const next = this.step(this.state, event);
    // On disk before it counts: if this throws, the answer was not taken and the question stands.
    this.keeper.append(event);
    this.state = next.state;
    for (const effect of next.effects) await this.carryOut(effect);
    this.listener.changed(this.state);
  }

  private async runRules(occasion: Occasion): Promise<void> {
    const { evaluate } = await import('../rulebook/evaluate.ts');
    const outcome = await evaluate(this.book, withMinutes(occasion));
    await this.happen({ type: 'RulesEvaluated', stage: occasion.stage, outcome });
  }

  private async weigh(trouble: TroubleCase, occasion: Occasion): Promise<void> {
    const { weighTrouble } = await import('./weigh-trouble.ts');
    await this.happen({
      type: 'TroubleWeighed',
      outcome: weighTrouble(this.book, trouble, withMinutes(occasion)),
    });
  }

  private async carryOut(effect: Effect): Promise<void> {
    switch (effect.do) {
      case 'say':
        this.listener.turn(effect.turn);
        return;
      case 'evaluate':
        await this.runRules(effect.occasion);
        return;
      case 'consider': {
        const { evaluate } = await import('../rulebook/evaluate.ts');
        const { question, answer, occasion } = effect;
        const outcome = await evaluate(this.book, withMinutes(occasion));
        await this.happen({ type: 'WhatIfAnswered', question, answer, outcome });
        return;
      }
      case 'give': {
        const { question, answer, text } = effect;
        await this.happen({ type: 'AnswerGiven', question, answer, text });
        return;
      }
      case 'weigh':
        await this.weigh(effect.trouble, effect.occasion);
        return;
      case 'setTimer':
        this.setTimer();
        return;
      case 'close':
        this.stopTimer();
    }
  }

  /** Rings when the present wait is over, if the program is still running then. */
  setTimer(): void {
    this.stopTimer();
    const { waiting } = this.state;
    if (!waiting) return;
    const left = Math.max(0, waiting.minutes - this.minutesWaited()) * 60_000;
    this.lookAfter(Math.min(left, longestNap));
  }

  private lookAfter(milliseconds: number): void {
    this.timer = this.clock.wakeAfter(milliseconds, () => {
      if (this.waitIsOver()) this.endWait().catch((error) => this.lookAgain(error));
      else this.setTimer();
    });
  }

  /** The end of the wait could not be written: said at once, and tried again. */
  private lookAgain(error: unknown): void {
    const text = `The wait is over, but the log cannot be written: ${(error as Error).message}. I try again in a minute.`;
    this.listener.turn({ kind: 'asks-back', at: this.clock.now(), text });
    this.listener.changed(this.state);
    this.lookAfter(longestNap);
  }

  endWait(): Promise<void> {
    return this.dispatch(this.waitEnded());
  }

  private waitEnded(): EventBody {
    return { type: 'WaitEnded', how: 'in-time', waitedMinutes: this.minutesWaited() };
  }
}
