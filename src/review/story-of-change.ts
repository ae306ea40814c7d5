import type { EventBody } from '../conversation/events.ts';
import type { Given, State } from '../conversation/state.ts';
import type { AnswerTold, Place, StopTold, Story } from './story.ts';
import { inVisit, isSameVisit } from './visits.ts';

type AnswerGiven = Extract<EventBody, { type: 'AnswerGiven' }>;
type AnswerChanged = Extract<EventBody, { type: 'AnswerChanged' }>;

function toldOf({ answers }: Story, { question, answer }: Given): AnswerTold | undefined {
  return answers.findLast((one) => one.question === question && one.answer === answer);
}

/** The record in which the maker gave an answer, which the program may have given again since. */
function ownRecordOf(story: Story, given: Given): number | undefined {
  const told = toldOf(story, given);
  return told?.again ?? told?.record;
}

/** Of an answer that the program gives again: when and where the maker gave it. */
export function firstGiven(
  { answers }: Story,
  { question, givenAt }: AnswerGiven,
): Pick<AnswerTold, 'givenAt' | 'again'> {
  if (givenAt === undefined) return {};
  const own = answers.findLast(
    (one) => one.again === undefined && one.question === question && (one.givenAt ?? one.at) === givenAt,
  );
  return own ? { givenAt, again: own.record } : { givenAt };
}

/** A change belongs to the visit in which its question was answered, wherever it is typed. */
export function takeChanged(story: Story, event: AnswerChanged, place: Place, before: State): void {
  const { question, answer, text } = event;
  const given = before.past.findLast((one) => one.question === question);
  if (!given) return;
  const was = ownRecordOf(story, given);
  story.changes.push({ ...place, question, ...(was === undefined ? {} : { was }) });
  story.answers.push({
    ...{ ...place, ...inVisit(given.before), givenAt: given.at },
    ...(was === undefined ? {} : { putsRight: was }),
    ...{ question, answer, text, stands: false },
  });
}

/** Nothing is taken back where a stop bars the way. */
export function takeWithdrawn(story: Story, place: Place, before: State): void {
  const given = before.past.length > before.floor ? before.past.at(-1) : undefined;
  if (!given) return;
  const was = ownRecordOf(story, given);
  story.takenBack.push({ ...place, question: given.question, ...(was === undefined ? {} : { was }) });
}

/** Answers that an event took out of the talk: the last one, or a changed one and all that came after it. */
export function takeBack(story: Story, before: State, after: State, place: Place): void {
  const kept = before.past.findIndex((given, index) => given !== after.past[index]);
  if (kept < 0) return;
  for (const given of before.past.slice(kept)) {
    const told = toldOf(story, given);
    if (told && told.record !== place.record) told.takenBack = place;
  }
}

/** Whether a stop that answers given again have just cleared came up with them, and had been told before. */
export function isHeldAgain({ stops, changes }: Story, told: StopTold): boolean {
  const since = changes.at(-1)?.record ?? Number.POSITIVE_INFINITY;
  const isTold = stops.some(
    (one) => one.stop === told.stop && isSameVisit(one, told) && one.record < told.record,
  );
  return isTold && told.record >= since;
}
