import type { ReviewFacts } from '../review-fact.ts';

export const batchFacts: ReviewFacts = {
  ended: {
    about: 'How the batch ended: finished, rejected, abandoned, or unfinished where the log stops before that.',
    of: ({ state }) => state.ended ?? 'unfinished',
  },
};
