import { firstRecord, lastGiven, lastSaid, saysSomething } from '../given.ts';
import { plainIn } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, InVisit, Story } from '../story.ts';
import { isSameVisit } from '../visits.ts';

interface Deviation {
  what: string;
  explained: boolean;
}

/** A look this near the end of a wait, as a share of it, is no short cut. */
const nearEnough = 0.9;

/** A remark from then on in the same visit of the stage. */
function remarkedSince(story: Story, then: InVisit): boolean {
  return story.notes.some((note) => note.record >= then.record && isSameVisit(note, then));
}

/** The maker remarks on an answer when giving it, not when the program gives it again. */
function remarkedOn(story: Story, told: AnswerTold): boolean {
  return remarkedSince(story, { ...told, record: firstRecord(story, told) });
}

function shortWaits(story: Story): Deviation[] {
  return story.waits
    .filter(({ how, waited, minutes }) => how === 'early' && (waited ?? 0) < nearEnough * minutes)
    .map((wait) => ({ what: 'a wait cut short', explained: remarkedSince(story, wait) }));
}

function keptDecision(story: Story): Deviation[] {
  if (lastSaid(story, 'decision-sure') !== true) return [];
  const explained = saysSomething(lastSaid(story, 'decision-reason'));
  return [{ what: 'a decision kept against the figures', explained }];
}

function washCutShort(story: Story): Deviation[] {
  const end = lastGiven(story, 'wash-end');
  if (!end || plainIn(end.answer) !== 'stopped-early') return [];
  return [{ what: 'washing stopped early', explained: remarkedOn(story, end) }];
}

function stepSkipped(story: Story): Deviation[] {
  const skipped = lastGiven(story, 'step-skipped');
  if (!skipped || plainIn(skipped.answer) !== true) return [];
  const said = saysSomething(lastSaid(story, 'not-written'));
  return [{ what: 'a step skipped', explained: said || remarkedOn(story, skipped) }];
}

function deviations(story: Story): Deviation[] {
  return [...shortWaits(story), ...keptDecision(story), ...washCutShort(story), ...stepSkipped(story)];
}

export const reasonFacts: ReviewFacts = {
  'unexplained-deviation': {
    about: 'The maker did other than advised, and the log does not say why.',
    of: (story) => {
      const found = deviations(story);
      return found.length > 0 ? found.some(({ explained }) => !explained) : undefined;
    },
  },
  'unexplained-what': {
    about: 'What was done other than advised and without a reason.',
    of: (story) => {
      const open = deviations(story).filter(({ explained }) => !explained);
      return [...new Set(open.map(({ what }) => what))].join(', ') || undefined;
    },
  },
};
