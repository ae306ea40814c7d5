import { change, type Draft, without } from './draft.ts';

/** What is wrong is asked before everything else, whatever was being asked. */
export function raiseAlarm(draft: Draft): void {
  change(draft, {
    alarm: true,
    asking: 'alarm',
    doubt: undefined,
    answers: without(draft.state.answers, ['alarm']),
  });
}
