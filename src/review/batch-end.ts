import type { Book } from '../rulebook/book.ts';
import { adviceKey, askKey, clearKey, leaveKey, wayKey } from '../rulebook/rule-keys.ts';

/** Of the rules only what says whether a log has come to its end; plain data, made once for a whole folder. */
export interface Ends {
  /** The stage that a batch begins in. */
  first: string;
  stages: ReadonlyMap<string, StageEnds>;
  /** Questions whose answer holds for the whole batch. */
  once: ReadonlySet<string>;
  /** Keys that release a stop. */
  releasing: ReadonlyMap<string, readonly string[]>;
}

interface StageEnds {
  asks: { question: string; gate: string | undefined; decides: boolean }[];
  /** Ways out in their order: the key that opens each (none: always open), and whether it ends the batch. */
  ways: { key: string | undefined; ends: boolean }[];
  /** Advice that ends the batch there and then. */
  ending: { key: string; how: 'rejected' | 'abandoned' }[];
}

/** What the last evaluation said that bears on the end. */
export interface LastOutcome {
  true: readonly string[];
  deciding: readonly string[];
}

function stageEnds(book: Book, stage: Book['stages'][number]): StageEnds {
  const asks = stage.asks.map((question) => ({
    question,
    gate: book.questions[question]?.when === undefined ? undefined : askKey(question),
    decides: book.questions[question]?.purpose === 'decide',
  }));
  const ways = stage.leave.map((way, index) => ({
    key: way.when ? leaveKey(stage.stage, index) : undefined,
    ends: way.to === 'end',
  }));
  const ending = stage.advice.flatMap(({ id, then }) =>
    then?.end ? [{ key: adviceKey(id), how: then.end }] : [],
  );
  return { asks, ways, ending };
}

export function endsOf(book: Book): Ends {
  return {
    first: book.stages[0]?.stage ?? '',
    stages: new Map(book.stages.map((stage) => [stage.stage, stageEnds(book, stage)])),
    once: new Set(Object.keys(book.questions).filter((id) => book.questions[id]?.once)),
    releasing: new Map(
      book.hazards.map(({ id, clear }) => [
        id,
        [clearKey(id), ...(clear.go ?? []).map((_way, index) => wayKey(id, index))],
      ]),
    ),
  };
}

/** How the batch stands after the last evaluation of a stage, as the talk itself would decide it. */
export function endedAt(
  ends: Ends,
  stage: string,
  outcome: LastOutcome,
  isAnswered: (question: string) => boolean,
): 'finished' | 'rejected' | 'abandoned' | undefined {
  const rules = ends.stages.get(stage);
  if (!rules) return undefined;
  const ending = rules.ending.find(({ key }) => outcome.true.includes(key));
  if (ending) return ending.how;
  const open = rules.asks.some(
    ({ question, gate, decides }) =>
      !isAnswered(question) &&
      (gate === undefined || outcome.true.includes(gate)) &&
      (!decides || outcome.deciding.includes(question)),
  );
  if (open) return undefined;
  const way = rules.ways.find(({ key }) => key === undefined || outcome.true.includes(key));
  return way?.ends ? 'finished' : undefined;
}
