import { answersTo } from '../log-reading.ts';
import type { ReviewFacts } from '../review-fact.ts';
import type { AnswerTold, Story } from '../story.ts';

const minute = 60_000;
const day = 24 * 60;

function minutesOfClock(told: AnswerTold | undefined): number | undefined {
  if (told?.answer.kind !== 'clock') return undefined;
  const [hours = 0, minutes = 0] = told.answer.time.split(':').map(Number);
  return hours * 60 + minutes;
}

/**
 * Minutes from the end of heating to the pan test, by the maker's own clock. A clock says no day: of the days that
 * fit, the one is taken that lies nearest to the time between the two answers in the log.
 */
function fromHeatToTest(story: Story): number | undefined {
  const ended = answersTo(story, ['heating-ended']).at(-1);
  const tested = answersTo(story, ['water-test-time']).at(-1);
  const [end, test] = [minutesOfClock(ended), minutesOfClock(tested)];
  if (!ended || !tested || end === undefined || test === undefined) return undefined;
  const when = ({ givenAt, at }: AnswerTold) => Date.parse(givenAt ?? at) / minute;
  const apart = when(tested) - when(ended);
  return test - end + day * Math.round((apart - (test - end)) / day);
}

export const waterFacts: ReviewFacts = {
  'minutes-from-heat-to-water-test': {
    about:
      "Minutes from the heater's end to the pan test, by the maker's clock; below zero if the test came first.",
    unit: 'min',
    of: fromHeatToTest,
  },
};
