import { stageOf } from '../rulebook/book.ts';
import { unsafeToLeaveKey } from '../rulebook/rule-keys.ts';
import { change, type Draft, say } from './draft.ts';

/** Why the maker must not walk away just now; empty at a safe pause. */
function reasonsToStay(draft: Draft): string[] {
  const { book, state } = draft;
  const notes = stageOf(book, state.stage)['unsafe-to-leave'] ?? [];
  return notes
    .filter((_note, index) => state.true.includes(unsafeToLeaveKey(state.stage, index)))
    .map((note) => note.say);
}

/** Stops for now; where walking away is not safe, only after saying what to do first. */
export function pause(draft: Draft): void {
  const reasons = reasonsToStay(draft);
  if (reasons.length > 0 && !draft.state.pauseWarned) {
    change(draft, { pauseWarned: true });
    for (const reason of reasons) say(draft, 'advice', `Not a safe pause. ${reason}`, { signal: 'DANGER' });
    say(
      draft,
      'asks-back',
      'Do that first. Say pause once more when it is done, or when you must leave anyway.',
    );
    return;
  }
  change(draft, { paused: true });
  say(draft, 'session', 'Paused. Every answer is kept; start again and we go on at this question.');
  draft.effects.push({ do: 'close' });
}
