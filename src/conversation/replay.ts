import type { Turn } from './effects.ts';
import type { TalkEvent } from './events.ts';
import { emptyState, type State } from './state.ts';
import type { Step } from './step.ts';

/** The state and the turns after these events. Effects are not carried out: their outcomes are among the events. */
export function replay(step: Step, events: readonly TalkEvent[]): { state: State; turns: Turn[] } {
  let state = emptyState;
  const turns: Turn[] = [];
  for (const event of events) {
    const next = step(state, event);
    state = next.state;
    for (const effect of next.effects) if (effect.do === 'say') turns.push(effect.turn);
  }
  return { state, turns };
}
