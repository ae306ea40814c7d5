import type { Effect } from '../../src/conversation/effects.ts';
import { enterStage, occasionOf } from '../../src/conversation/enter-stage.ts';
import type { Answer, TalkEvent } from '../../src/conversation/events.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { withMinutes } from '../../src/journal/answer-minutes.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { stageOf } from '../../src/rulebook/book.ts';
import { evaluate } from '../../src/rulebook/evaluate.ts';
import type { Occasion } from '../../src/rulebook/evaluation.ts';
import { SmallTalk } from '../conversation/small-talk.ts';
import { book } from '../rulebook/cases.ts';
import { answerOf } from './relevance-answers.ts';

export const demoFolder = new URL('../../transcripts-demo/', import.meta.url).pathname;
const step = makeStep(book);

export interface Visit {
  batch: string;
  stage: string;
  /** The last look at the rules before the stage was left. */
  last: Occasion;
}

/** The last look at the rules in every visit of a stage that was left by itself. */
export function visitsIn(batch: string, events: readonly TalkEvent[], start: State = emptyState): Visit[] {
  const found: Visit[] = [];
  let state = start;
  let last: Occasion | undefined;
  for (const event of events) {
    const { state: next, effects } = step(state, event);
    const looks = effects.filter(
      (effect): effect is Extract<Effect, { do: 'evaluate' }> => effect.do === 'evaluate',
    );
    const left = next.path.length > state.path.length || (next.ended === 'finished' && !state.ended);
    if (left && last && state.held.length === 0) found.push({ batch, stage: state.stage, last });
    last = looks.at(-1)?.occasion ?? last;
    state = next;
  }
  return found;
}

export interface Plan {
  stage: string;
  batch: string;
  /** The stage from whose end the batch comes, where the recorded one never was in the stage. */
  after?: string | undefined;
  given: Record<string, string | number | boolean | string[]>;
}

export interface Walk {
  asked: string[];
  visit: Visit;
}

interface Recorded {
  before: State;
  at: string;
  answers: Map<string, Answer[]>;
}

/** A recorded batch up to a stage, and what was answered there. */
function recordedUpTo({ batch, stage, after }: Plan): Recorded {
  const answers = new Map<string, Answer[]>();
  let state = emptyState;
  let entered: Pick<Recorded, 'before' | 'at'> | undefined;
  for (const event of eventsOf(readJournal(`${demoFolder}${batch}.ndjson`))) {
    const { state: next } = step(state, event);
    const isThere = after ? state.stage === after && next.stage !== after : next.stage === stage;
    if (isThere && !entered) entered = { before: next, at: event.at };
    if (event.type === 'AnswerGiven' && state.stage === stage) {
      answers.set(event.question, [...(answers.get(event.question) ?? []), event.answer]);
    }
    state = next;
  }
  if (!entered) throw new Error(`${batch} never came to ${after ?? stage}`);
  return { ...entered, answers };
}

/** The state of a recorded batch as it enters the stage, with the given answers of earlier stages in place. */
function entering(plan: Plan, { before, at }: Recorded): State {
  const asks = stageOf(book, plan.stage).asks;
  const earlier = Object.entries(plan.given).filter(([id]) => before.answers[id] || !asks.includes(id));
  const put = earlier.map(([id, given]) => {
    const answer = answerOf(id, given);
    const status = answer.kind === 'not-sure' || answer.kind === 'skipped' ? answer.kind : 'known';
    return [id, { answer, status, at, turn: before.turn } as const] as const;
  });
  const answers = { ...before.answers, ...Object.fromEntries(put) };
  const draft = { book, at, state: { ...before, answers }, effects: [] };
  enterStage(draft, plan.stage);
  return draft.state;
}

async function answer(talk: SmallTalk, question: string, answer: Answer): Promise<void> {
  await talk.session.dispatch({ type: 'AnswerGiven', question, answer, text: 'as prepared' });
}

/** Walks through one stage to its end, as the program does. */
export async function walkStage(plan: Plan): Promise<Walk> {
  const recorded = recordedUpTo(plan);
  const start = entering(plan, recorded);
  const talk = new SmallTalk(book);
  const { session, clock } = talk;
  clock.pass((Date.parse(recorded.at) - Date.parse(clock.now())) / 60_000);
  session.state = start;
  const outcome = await evaluate(book, withMinutes(occasionOf(start)));
  await session.dispatch({ type: 'RulesEvaluated', stage: plan.stage, outcome });
  const asked: string[] = [];
  while (session.state.path.length === start.path.length && !session.state.ended) {
    const { asking, held } = session.state;
    if (held.length > 0) throw new Error(`${plan.stage} is held by ${held.map((one) => one.stop).join()}`);
    if (asked.length > 300) throw new Error(`${plan.stage} goes round and round: ${asked.slice(-12).join()}`);
    if (!asking) {
      if (!session.state.waiting) break;
      await talk.wait();
      continue;
    }
    asked.push(asking);
    const list = recorded.answers.get(asking) ?? [];
    const given = plan.given[asking];
    const next = given !== undefined ? answerOf(asking, given) : list.length > 1 ? list.shift() : list[0];
    if (!next) throw new Error(`${plan.stage}: nobody answers ${asking}`);
    await answer(talk, asking, next);
  }
  const [visit] = visitsIn(`${plan.stage} after ${plan.batch}`, talk.events, start);
  if (!visit) throw new Error(`${plan.stage} was not left; it asked ${asked.join()}`);
  return { asked, visit };
}
