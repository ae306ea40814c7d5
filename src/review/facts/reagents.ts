import { figureOf, numberOf, standing } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';

/** As far as a slip in the sum can be told from a coarse scale: shares of the right amount. */
const readsAs = 0.01;
const toldApart = 0.03;

/** What the scale would show, as a share of the right amount, if the purity had been used in another way. */
function slips(story: Story, purity: number): ['twice' | 'not at all', number][] {
  const pure = figureOf(story, 'alkali-pure-per-litre');
  const titration = figureOf(story, 'titrant-net');
  const whole: ReturnType<typeof slips> = [
    ['not at all', purity],
    ['twice', 1 / purity],
  ];
  if (pure === undefined || titration === undefined) return whole;
  return [...whole, ['twice', (pure - titration + titration / purity) / pure]];
}

function purityUse(story: Story): 'once' | 'twice' | 'not at all' | undefined {
  const weighed = numberOf(standing(story, 'alkali-weighed'));
  const right = figureOf(story, 'alkali-now');
  const assay = numberOf(standing(story, 'assay'));
  if (!weighed || !right || !assay) return undefined;
  const share = weighed / right;
  const slip = slips(story, assay / 100).find(
    ([, would]) => Math.abs(would - 1) > toldApart && Math.abs(share - would) < readsAs,
  );
  return slip?.[0] ?? 'once';
}

export const reagentFacts: ReviewFacts = {
  'purity-use': {
    about:
      'How the weighed alkali reads as if its purity had been taken into the sum: once, twice, or not at all.',
    of: purityUse,
  },
};
