import type { Plain } from '../../rulebook/condition.ts';
import { lastGiven, lastSaid, saidBefore } from '../given.ts';
import { answersTo, figureOf, numberOf } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';

/** Every reading of fuel that was being heated to drive its methanol off. */
const heated = (story: Story) => answersTo(story, ['fuel-temperature']);

const isInsideABuilding = (place: Plain | undefined) => place === 'attached-garage' || place === 'house';

export const flashFacts: ReviewFacts = {
  'flash-before-draw': {
    about: 'Fuel was heated for the flash while its glycerin was not known to be drawn, two draws clean.',
    of: (story, book) => {
      const readings = heated(story);
      if (readings.length === 0) return undefined;
      return readings.some((reading) => {
        const drawn = saidBefore(story, book, 'gly-drawn', reading);
        return drawn !== 'yes' || saidBefore(story, book, 'drawn-twice', reading) === false;
      });
    },
  },
  'flash-vent-missing': {
    about:
      'Fuel was heated for the flash with no condenser named that vents outdoors, or in a house or attached garage.',
    of: (story, book) => {
      const readings = heated(story);
      if (readings.length === 0) return undefined;
      return readings.some((reading) => {
        const vent = saidBefore(story, book, 'flash-vent', reading);
        return vent !== 'condenser-outdoors' || isInsideABuilding(saidBefore(story, book, 'place', reading));
      });
    },
  },
  'methanol-after-flash': {
    about: 'The higher of the last two methanol losses that were weighed at the flash.',
    unit: '%',
    of: (story) => {
      const losses = ['methanol-left', 'methanol-left-again'].flatMap((question) => {
        const last = answersTo(story, [question]).findLast(({ stage }) => stage === 'flash');
        return numberOf(last?.answer) ?? [];
      });
      return losses.length > 0 ? Math.max(...losses) : undefined;
    },
  },
  'soap-inlet-off': {
    about:
      'How far the soap that was booked on the bed is from the soap that the crude fuel titrated, in % of that.',
    unit: '%',
    of: (story) => {
      const inlet = lastSaid(story, 'soap-inlet');
      const crude = figureOf(story, 'soap-crude');
      // A wash with water in between takes soap out, so that the two need not agree.
      if (typeof inlet !== 'number' || !crude || lastGiven(story, 'wash-look')) return undefined;
      return Math.abs(inlet - crude) <= tellsApart ? 0 : (100 * Math.abs(inlet - crude)) / crude;
    },
  },
};

/** Two readings of the soap test, each good to 30 ppm, cannot be told apart closer than this, in ppm. */
const tellsApart = 60;
