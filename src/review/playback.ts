import type { Turn } from '../conversation/effects.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep, type Step } from '../conversation/step.ts';
import type { Book } from '../rulebook/book.ts';
import type { Numbered } from './story.ts';

/** States are kept at every so many records, so that going back does not fold the whole log again. */
const keptEvery = 50;

/** A log played back: at any record, what had been said until then and how the batch stood. Nothing is written. */
export class Playback {
  readonly records: readonly Numbered[];
  /** How many records have been played. */
  position = 0;
  state: State = emptyState;
  private readonly step: Step;
  private readonly kept: State[] = [emptyState];

  constructor(book: Book, records: readonly Numbered[]) {
    this.step = makeStep(book);
    this.records = records;
  }

  get isAtEnd(): boolean {
    return this.position >= this.records.length;
  }

  /** Plays one record and gives what it says. */
  playOne(): Turn[] {
    const record = this.records[this.position];
    if (!record) return [];
    const { state, effects } = this.step(this.state, record.event);
    this.state = state;
    this.position += 1;
    if (this.position % keptEvery === 0) this.kept[this.position / keptEvery] = state;
    return effects.flatMap((effect) => (effect.do === 'say' ? [effect.turn] : []));
  }

  /** Plays on until something is said; the end of the log says nothing more. */
  playOn(): Turn[] {
    for (;;) {
      const turns = this.playOne();
      if (turns.length > 0 || this.isAtEnd) return turns;
    }
  }

  /** Plays on until what is said, or the state after it, fits; gives everything said on the way. */
  playUntil(fits: (turns: readonly Turn[], playback: Playback) => boolean): Turn[] {
    const said: Turn[] = [];
    while (!this.isAtEnd) {
      const turns = this.playOne();
      said.push(...turns);
      if (fits(turns, this)) break;
    }
    return said;
  }

  /** Goes to just after so many records, forward or back. */
  goTo(position: number): void {
    const wanted = Math.max(0, Math.min(position, this.records.length));
    const from = Math.min(Math.floor(wanted / keptEvery), this.kept.length - 1);
    if (wanted < this.position || from * keptEvery > this.position) {
      this.position = from * keptEvery;
      this.state = this.kept[from] ?? emptyState;
    }
    while (this.position < wanted) this.playOne();
  }

  /** What would be said to a request made at this point; the log and the state stay as they are. */
  ask(event: Parameters<Step>[1]): Turn[] {
    const { effects } = this.step(this.state, event);
    return effects.flatMap((effect) => (effect.do === 'say' ? [effect.turn] : []));
  }
}
