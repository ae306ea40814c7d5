import { hazardOf } from '../rulebook/book.ts';
import { type Draft, say } from './draft.ts';

/** A stop in full: what it says, what must be true before going on, and why. */
export function sayStop(draft: Draft, stop: string, opening = ''): void {
  const hazard = hazardOf(draft.book, stop);
  say(draft, 'stop', `${opening}${hazard.say} Before going on: ${hazard.stop}`, {
    signal: hazard.signal,
    id: hazard.id,
    because: hazard.because,
  });
}
