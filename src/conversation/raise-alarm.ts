import { change, type Draft, say, without } from './draft.ts';
import type { Answer } from './events.ts';
import { dangerIn, isCalm } from './understanding/read-alarm.ts';

/** What is wrong is asked before everything else, whatever was being asked. */
export function raiseAlarm(draft: Draft): void {
  change(draft, {
    alarm: true,
    asking: 'alarm',
    doubt: undefined,
    answers: without(draft.state.answers, ['alarm']),
  });
}

/** Trouble in the maker's own words: where they plainly say what it is, nobody has to pick it from a list first. */
export function reportTrouble(draft: Draft, text: string, isGivenAgain: boolean): void {
  raiseAlarm(draft);
  const answer = isGivenAgain ? undefined : dangerIn(draft.book, text);
  if (answer) draft.effects.push({ do: 'give', question: 'alarm', answer, text });
}

/** The same danger, reported anew while its wait runs: the wait begins from now. */
export function restartWait(draft: Draft, answer: Answer): void {
  const { waiting } = draft.state;
  if (!waiting?.fixed || answer.kind !== 'choice' || isCalm(answer)) return;
  change(draft, { waiting: { ...waiting, since: draft.at } });
  draft.effects.push({ do: 'setTimer', minutes: waiting.minutes });
  say(draft, 'note', 'It is there again, so the wait begins anew.', { signal: 'DANGER' });
}
