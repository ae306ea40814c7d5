import { numberOf, standing } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';

function flasks(story: Story): number[] {
  return ['titrant-1', 'titrant-2', 'titrant-3'].flatMap((id) => numberOf(standing(story, id)) ?? []);
}

export const titrationFacts: ReviewFacts = {
  'titrant-flasks': {
    about: 'How many flasks of this oil were titrated and written down.',
    unit: '1',
    of: (story) => flasks(story).length,
  },
  'titrant-apart': {
    about: 'How far the flasks lie apart, however many there are of them from two on.',
    unit: 'mL',
    of: (story) => {
      const read = flasks(story);
      return read.length < 2 ? undefined : Math.max(...read) - Math.min(...read);
    },
  },
};
