import type { TalkEvent } from '../conversation/events.ts';
import { emptyState, type State } from '../conversation/state.ts';
import type { Step } from '../conversation/step.ts';
import type { Problem } from './check-line.ts';
import type { JournalRecord } from './record-schema.ts';

/** A state keeps every answer to go back to, so a talk without end would fill the memory; a batch has about a thousand. */
export const mostRetold = 10_000;

/** Goes through the talk again, record by record, to see that it can be followed to its end. */
export class Retelling {
  private readonly step: Step;
  private state: State = emptyState;
  /** Records that were gone through. */
  records = 0;
  problem: Problem | undefined;

  constructor(step: Step) {
    this.step = step;
  }

  get ended(): State['ended'] {
    return this.state.ended;
  }

  take({ seq, at, event }: JournalRecord): void {
    if (this.problem || this.records >= mostRetold) return;
    const opens = event.type === 'BatchOpened';
    if (opens !== (seq === 1)) {
      const says = opens ? 'a batch is opened twice' : `a batch begins with BatchOpened, not ${event.type}`;
      this.problem = { kind: 'no-talk', line: seq, says };
      return;
    }
    try {
      this.state = this.step(this.state, { ...event, at } as TalkEvent).state;
      this.records += 1;
    } catch (error) {
      this.problem = { kind: 'no-talk', line: seq, says: (error as Error).message };
    }
  }
}
