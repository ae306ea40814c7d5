import type { Book } from '../../rulebook/book.ts';
import type { Plain } from '../../rulebook/condition.ts';
import { lastGiven, saidBefore, timeOf, toldBefore } from '../given.ts';
import { answersTo, numberOf, plainIn } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';

const minute = 60_000;
/** A wrist watch and a question answered in passing, in minutes. */
const forgiven = 5;

const isRough = (heard: Plain | undefined) => heard === 'rattle' || heard === 'no-flow';

/** Whether the minutes counted are more than the pump can have run smoothly. */
function countsRoughMinutes(story: Story, book: Book): boolean | undefined {
  const mixed = lastGiven(story, 'mix-time');
  const claimed = numberOf(mixed?.answer);
  if (!mixed || claimed === undefined) return undefined;
  const sound = toldBefore(story, book, 'pump-sound', mixed);
  const heard = plainIn(sound?.answer);
  if (!sound || heard === undefined) return undefined;
  if (heard !== 'smooth') return true;
  const first = answersTo(story, ['pump-sound']).find(({ answer }) => isRough(plainIn(answer)));
  const charged = toldBefore(story, book, 'methoxide-delivered', mixed);
  if (!first || !charged || first.record > mixed.record) return false;
  const room = timeOf(mixed) - timeOf(charged) - (timeOf(sound) - timeOf(first));
  return claimed > room / minute + forgiven;
}

export const reactionFacts: ReviewFacts = {
  'heater-on-at-charge': {
    about: 'Methoxide went in while the heater was on, or nobody had said that it was off.',
    of: (story, book) => {
      const charges = answersTo(story, ['charge-minutes', 'second-dose-in']);
      if (charges.length === 0) return undefined;
      return charges.some((charge) => saidBefore(story, book, 'heater-off', charge) !== true);
    },
  },
  'rough-minutes-counted': {
    about: 'Mixing time was counted while the pump rattled or stood.',
    of: countsRoughMinutes,
  },
};
