import { saidBefore } from '../given.ts';
import { answersTo } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';

/** Readings that are only taken while a heater runs. */
const heating = ['settle-temperature', 'oil-temperature', 'fuel-temperature', 'dry-temperature'];

export const watchingFacts: ReviewFacts = {
  'heat-unwatched': {
    about: 'A tank was heated with nobody staying by it and no high-limit and timer named.',
    of: (story, book) => {
      const readings = answersTo(story, heating);
      if (readings.length === 0) return undefined;
      return readings.some((reading) => {
        const watch = saidBefore(story, book, 'attended', reading);
        const heater = saidBefore(story, book, 'heater-kind', reading);
        return watch !== 'stay' && (watch !== 'both-fitted' || heater === 'element-no-high-limit');
      });
    },
  },
};
