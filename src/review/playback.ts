import type { Turn } from '../conversation/effects.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import { withStandIns } from './stand-ins.ts';

/** States are kept at every so many records, so that going back does not fold the whole log again. */
const keptEvery = 50;

/** A log played back: at any record, what had been said until then and how the batch stood. Nothing is written. */
export class Playback {
  /** The rules, with stand-ins for what the log speaks of and they no longer have. */
  readonly book: Book;
  readonly records: readonly Numbered[];
  /** How many records have been played. */
  position = 0;
  state: State = emptyState;
  /** Why the rules at hand cannot follow the log beyond this record; it ends here then. */
  stuck: string | undefined;
  private readonly step: Step;
  private readonly kept: State[] = [emptyState];
  /** Which records say something, as far as they have been played. */
  private readonly speaks: boolean[] = [];

  constructor(book: Book, records: readonly Numbered[]) {
    this.book = withStandIns(book, records);
    this.step = makeStep(this.book);
    this.records = records;
  }

  get isAtEnd(): boolean {
    return this.position >= this.records.length || this.isStuck;
  }

  get isStuck(): boolean {
    return this.stuck !== undefined && this.speaks.length === this.position;
  }

  /** When the record was made that was played last; at the start, when the first one was. */
  get at(): string {
    return this.records[Math.max(0, this.position - 1)]?.event.at ?? '';
  }

  /** The record that said something last, of the first so many. */
  lastSpoken(before: number): number | undefined {
    const index = this.speaks.lastIndexOf(true, before - 1);
    return before < 1 || index < 0 ? undefined : index;
  }

  /** Plays one record and gives what it says. */
  playOne(): Turn[] {
    const record = this.records[this.position];
    if (!record || this.isStuck) return [];
    let next: ReturnType<Step>;
    try {
      next = this.step(this.state, record.event);
    } catch (error) {
      this.stuck = (error as Error).message;
      return [];
    }
    const turns = next.effects.flatMap((effect) => (effect.do === 'say' ? [effect.turn] : []));
    this.speaks[this.position] = turns.length > 0;
    this.state = next.state;
    this.position += 1;
    if (this.position % keptEvery === 0) this.kept[this.position / keptEvery] = next.state;
    return turns;
  }

  /** Plays on until something is said; the end of the log says nothing more. */
  playOn(): Turn[] {
    for (;;) {
      const turns = this.playOne();
      if (turns.length > 0 || this.isAtEnd) return turns;
    }
  }

  /** Plays on through records that say nothing, up to the next one that does: what was asked meanwhile shows then. */
  settle(): void {
    while (!this.isAtEnd) {
      const { position } = this;
      if (this.playOne().length === 0) continue;
      this.goTo(position);
      return;
    }
  }

  /** Plays on until what is said, or the state after it, fits; gives everything said on the way. */
  playUntil(fits: (turns: readonly Turn[], playback: Playback) => boolean): {
    turns: Turn[];
    reached: boolean;
  } {
    const said: Turn[] = [];
    while (!this.isAtEnd) {
      const turns = this.playOne();
      said.push(...turns);
      if (fits(turns, this)) return { turns: said, reached: true };
    }
    return { turns: said, reached: false };
  }

  /** Goes to just after so many records, forward or back. */
  goTo(position: number): void {
    const wanted = Math.max(0, Math.min(position, this.records.length));
    const from = Math.min(Math.floor(wanted / keptEvery), this.kept.length - 1);
    if (wanted < this.position || from * keptEvery > this.position) {
      this.position = from * keptEvery;
      this.state = this.kept[from] ?? emptyState;
    }
    while (this.position < wanted && !this.isStuck) this.playOne();
  }

  /** What would be said to a request made at this point; the log and the state stay as they are. */
  ask(event: Parameters<Step>[1]): Turn[] {
    const { effects } = this.step(this.state, event);
    return effects.flatMap((effect) => (effect.do === 'say' ? [effect.turn] : []));
  }
}
