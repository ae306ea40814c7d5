import { checkQuestionId, troubleAsks } from '../../rulebook/trouble-questions.ts';
import type { TroubleTalk } from './trouble-case.ts';

/** Enough is known to weigh the causes. */
function isReady(trouble: TroubleTalk): boolean {
  return trouble.complaint !== undefined && trouble.stageSettled && trouble.toAsk.length === 0;
}

/** What the trouble needs next: a question, or the causes weighed. */
export function nextInTrouble(trouble: TroubleTalk): { ask: string } | 'weigh' {
  if (trouble.words === undefined) return { ask: troubleAsks.words };
  if (trouble.proposed.length > 0 || trouble.read.length > 0) return { ask: troubleAsks.right };
  if (trouble.complaint === undefined) return { ask: troubleAsks.complaint };
  if (!trouble.stageSettled) return { ask: troubleAsks.stage };
  const [first] = trouble.toAsk;
  if (first !== undefined) return { ask: checkQuestionId(first) };
  if (!isReady(trouble) || trouble.outcome === undefined) return 'weigh';
  const { next } = trouble.outcome;
  return { ask: next ? checkQuestionId(next.finding) : troubleAsks.next };
}
