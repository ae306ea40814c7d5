import type { Plain } from '../../rulebook/condition.ts';
import { lastGiven, lastSaid, saysSomething } from '../given.ts';
import { figureOf } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, Story } from '../story.ts';
import { hasLeft, isSameVisit, visitsOf } from '../visits.ts';

/** Steps of a guess: a person who did not measure says so many whole gallons, or litres in fives. */
const roundSteps: Record<string, number> = { L: 5, galUS: 1, galImp: 1, mL: 5000 };
/** Nearer than this to the volume that was worked out, in %, a round number is that volume. */
const asWorkedOut = 2;

function isRound({ answer }: AnswerTold): boolean {
  if (answer.kind !== 'quantity') return false;
  const { value, unit } = answer.typed ?? answer;
  const step = roundSteps[unit];
  return step !== undefined && value % step === 0;
}

/** A word about the glycerin: a remark in the stage that draws it, or one anywhere that names it. */
function remarksOnGlycerin(story: Story): boolean {
  const named = /glycer|lower layer|bottom layer/i;
  const drawing = visitsOf(story, 'settle').at(-1);
  const noted = story.notes.some((note) => named.test(note.text) || (drawing && isSameVisit(note, drawing)));
  const said = ['surprise', 'differently', 'not-written'].map((question) => lastSaid(story, question));
  return noted || said.some((text) => typeof text === 'string' && named.test(text));
}

/** A text by which a can, tub or drum can be found again holds a number or a date. */
function leadsBack(text: Plain | undefined): boolean {
  return saysSomething(text) && /\d/.test(text);
}

export const amountFacts: ReviewFacts = {
  'methanol-guessed': {
    about: 'The methanol that went in is a round number and not the volume that was worked out.',
    of: (story) => {
      const told = lastGiven(story, 'methanol-measured');
      const gap = figureOf(story, 'methanol-gap');
      if (!told || gap === undefined) return undefined;
      return isRound(told) && gap > asWorkedOut;
    },
  },
  'glycerin-remarked': {
    about: 'The log says something about the glycerin beside its volume.',
    of: remarksOnGlycerin,
  },
  'volume-dipped': {
    about: 'The oil was dipped, and its temperature at the dip is known.',
    of: (story) => {
      if (!hasLeft(story, 'dewater')) return undefined;
      const dipped = ['agrees', 'off-over-3'].includes(String(lastSaid(story, 'volume-check')));
      return (
        dipped && ['oil-volume', 'oil-volume-temperature'].every((one) => lastSaid(story, one) !== undefined)
      );
    },
  },
  'oil-named': {
    about: 'The log says where the oil comes from and which containers it came in.',
    of: (story) => {
      if (!hasLeft(story, 'feedstock')) return undefined;
      return leadsBack(lastSaid(story, 'oil-id')) && lastSaid(story, 'feed-source') !== undefined;
    },
  },
  'lots-named': {
    about: 'The log names the tub of alkali and the drum of methanol.',
    of: (story) => (hasLeft(story, 'methoxide') ? leadsBack(lastSaid(story, 'reagent-lots')) : undefined),
  },
};
