import type { Book } from '../rulebook/book.ts';
import type { EventBody } from './events.ts';
import { staleMoments } from './moment.ts';
import type { Given, State } from './state.ts';
import { isOfTrouble } from './trouble/talk-of-trouble.ts';

/** An answer counts again in its own stage, and one that cleared a stop for the same stop only. */
function counts(state: State, given: Given): boolean {
  const [hold] = state.held;
  const sameStop = hold === undefined || given.before.held.some((one) => one.stop === hold.stop);
  return sameStop && given.before.stage === state.stage;
}

/** The finding out of what went wrong is over, and only the log keeps it: it is not gone through again. */
function isFindingOut({ question, answer }: Given): boolean {
  const opened = question === 'alarm' && answer.kind === 'choice' && answer.choice === 'not-right';
  return opened || isOfTrouble(question);
}

function answerAgain({ question, answer, text, at }: Given): EventBody {
  return { type: 'AnswerGiven', question, answer, text, givenAt: at };
}

/** The answers that were given after a changed one, to be given again as far as the talk still asks for them. */
export class LaterAnswers {
  private readonly book: Book;
  private readonly left: Given[];
  /** What was to be given last. */
  private offered: Given | undefined;
  /** The question that was asked when the change was typed, if its wait was over. */
  private over: string | undefined;
  private readonly delay: string | undefined;

  /** @param before  the state in which the change was typed */
  constructor(book: Book, before: State, changed: string) {
    this.book = book;
    const index = before.past.findLastIndex((given) => given.question === changed);
    this.left = before.past.slice(index + 1).filter((given) => !isFindingOut(given));
    const { asking, waited, delays } = before;
    this.over = asking && waited.includes(asking) ? asking : undefined;
    this.delay = asking && delays[asking];
  }

  /** What happens next; nothing when the talk comes to something that was not answered then. */
  next(state: State, waitedMinutes: number): EventBody | undefined {
    this.dropTaken(state);
    if (state.ended) return undefined;
    if (!state.asking && state.waiting) {
      if (!this.isWaitOver(state, state.waiting.question)) return undefined;
      return { type: 'WaitEnded', how: 'again', waitedMinutes };
    }
    const index = this.find(state, state.asking);
    const given = this.left[index];
    const trouble = this.troubleBefore(state, index);
    if (trouble) return { type: 'TroubleReported', text: trouble.text, givenAt: trouble.at };
    return this.take(this.momentBefore(state, given) ?? index);
  }

  /** What held for the moment only was asked anew after a long absence: that answer comes first, or the talk asks. */
  private momentBefore(state: State, given: Given | undefined): number | undefined {
    if (state.held.length > 0) return undefined;
    for (const back of state.absences) {
      if (given && given.at < back) break;
      const [moment] = staleMoments(this.book, state, back);
      if (moment !== undefined) return this.find(state, moment, back);
    }
    return undefined;
  }

  private take(index: number): EventBody | undefined {
    this.offered = this.left[index];
    return this.offered && answerAgain(this.offered);
  }

  /** An answer is left to be given until it was taken: the disk may fail in between. */
  private dropTaken({ past }: State): void {
    const { offered } = this;
    if (offered && past.some(({ question, at }) => question === offered.question && at === offered.at))
      this.left.splice(this.left.indexOf(offered), 1);
    this.offered = undefined;
  }

  private find(state: State, question: string | undefined, since = ''): number {
    return this.left.findIndex(
      (given) => given.question === question && given.at >= since && counts(state, given),
    );
  }

  /** A wait is not sat out twice: the look after it was taken, or was due when the change was typed. */
  private isWaitOver(state: State, question: string): boolean {
    if (this.find(state, question) >= 0) return true;
    const over = this.over === question && state.delays[question] === this.delay && state.held.length === 0;
    if (over) this.over = undefined;
    return over;
  }

  /** Trouble was reported before the answer that comes next: it comes first again. */
  private troubleBefore(state: State, index: number): Given | undefined {
    if (state.alarm) return undefined;
    const trouble = this.left.findIndex((given) => given.question === 'alarm');
    const given = trouble < index ? this.left[trouble] : undefined;
    return given?.before.stage === state.stage ? given : undefined;
  }
}
