import { checkQuestionId, troubleAsks } from '../../rulebook/trouble-questions.ts';
import type { TroubleTalk } from './trouble-case.ts';

/** What the trouble needs next: a question, or the causes weighed. */
export function nextInTrouble(trouble: TroubleTalk): { ask: string } | 'weigh' {
  if (trouble.words === undefined) return { ask: troubleAsks.words };
  if (trouble.proposed.length > 0 || trouble.read.length > 0) return { ask: troubleAsks.right };
  if (!trouble.complaintSettled) return { ask: troubleAsks.complaint };
  if (!trouble.stageSettled) return { ask: troubleAsks.stage };
  const [first] = trouble.toAsk;
  if (first !== undefined) return { ask: checkQuestionId(first) };
  if (trouble.outcome === undefined) return 'weigh';
  const { next } = trouble.outcome;
  return { ask: next ? checkQuestionId(next.finding) : troubleAsks.next };
}
