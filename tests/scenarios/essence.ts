import { factOf } from '../../src/conversation/facts.ts';
import type { State } from '../../src/conversation/state.ts';

/** What a talk has come to, without when and in which order it was said. */
export function essence(state: State) {
  const answers = Object.fromEntries(
    Object.entries(state.answers).map(([id, one]) => [id, factOf(one.answer) ?? one.status]),
  );
  return {
    stage: state.stage,
    path: state.path,
    asking: state.asking,
    waiting: state.waiting?.question,
    answers,
    figures: state.figures,
    held: state.held.map((hold) => hold.stop),
    told: [...state.told].sort(),
    ended: state.ended,
  };
}
