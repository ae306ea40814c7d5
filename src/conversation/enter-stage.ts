import { questionOf, stageOf } from '../rulebook/book.ts';
import type { Occasion } from '../rulebook/evaluation.ts';
import { change, type Draft, say, without } from './draft.ts';
import { factTable } from './facts.ts';
import type { State } from './state.ts';

/** What the rules of the present stage are to be run on. */
export function occasionOf(state: State): Occasion {
  return {
    stage: state.stage,
    facts: factTable(state),
    figures: state.figures,
    held: state.held.map((hold) => hold.stop),
    explained: state.told,
  };
}

/** Asks the outside to run the rules of the present stage; the talk goes on when they come back. */
export function askForRules(draft: Draft): void {
  draft.effects.push({ do: 'evaluate', occasion: occasionOf(draft.state) });
  change(draft, { evaluating: true, asking: undefined });
}

/** Enters a stage: what it asks at every visit is forgotten, and its rules look at what is known. */
export function enterStage(draft: Draft, id: string): void {
  const stage = stageOf(draft.book, id);
  const fresh = stage.asks.filter((question) => !questionOf(draft.book, question).once);
  const again = draft.state.path.includes(id);
  change(draft, {
    stage: id,
    path: [...draft.state.path, id],
    answers: without(draft.state.answers, fresh),
    told: [],
    offered: [],
    delays: {},
    firm: [],
    waited: [],
    true: [],
    undecided: {},
    deciding: [],
    asking: undefined,
  });
  say(draft, 'stage', `${stage.title}${again ? ' (again)' : ''}`, { id, because: stage.about });
  // With no answers every condition is undecided, so a new batch asks its first question without the engine.
  if (Object.keys(draft.state.answers).length > 0) askForRules(draft);
}
