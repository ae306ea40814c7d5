import { answersTo, numberOf, plainIn, standing } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { Story } from '../story.ts';

/** Answers that can only be given once fuel runs through water, a bed or powder. */
const washing = ['wash-method', 'outlet-start-acid', 'powder-amount'];

function stoodAfterFlash(story: Story): number | undefined {
  return numberOf(standing(story, 'wash-stand')) ?? numberOf(standing(story, 'flash-settle-hours'));
}

/** Extra doses that went in, each with whether the drop-out of the check before it was written down. */
function extraDoses(story: Story): boolean[] {
  let measured = false;
  const doses: boolean[] = [];
  for (const { question, answer } of answersTo(story, ['conv-test', 'dropout-ml', 'second-dose-in'])) {
    if (question === 'conv-test') measured = false;
    else if (question === 'dropout-ml') measured = numberOf(answer) !== undefined;
    else if (plainIn(answer) === true) {
      doses.push(measured);
      measured = false;
    }
  }
  return doses;
}

export const settlingFacts: ReviewFacts = {
  'stood-after-flash': {
    about: 'Hours that the fuel stood still between the flash and the wash.',
    unit: 'h',
    of: stoodAfterFlash,
  },
  'wash-begun': {
    about: 'Whether fuel was washed, with water, on a bed or with powder.',
    of: (story) => washing.some((question) => plainIn(standing(story, question)) !== undefined),
  },
  'extra-doses': {
    about: 'How many extra doses of methoxide went in after the first charge.',
    unit: '1',
    of: (story) => extraDoses(story).length,
  },
  'extra-doses-unmeasured': {
    about: 'How many of them went in with no drop-out written down since the check before.',
    unit: '1',
    of: (story) => extraDoses(story).filter((measured) => !measured).length,
  },
};
