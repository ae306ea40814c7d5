import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import { emptyState, type State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { questionOf } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';
import { demoBatches, ToldTalk, talkStraight, whole } from './straight-talk.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 600_000 });

/** For a longer search: EDIT_RUNS=200 EDIT_SEED=7 before the test command. */
const runs = Number(process.env.EDIT_RUNS ?? 15);
const seed = Number(process.env.EDIT_SEED ?? 20260302);

const step = makeStep(book);

/** One of a list, by a share from 0 to 1. */
function oneOf<T>(list: readonly T[], share: number): T {
  const found = list[Math.min(list.length - 1, Math.floor(share * list.length))];
  if (found === undefined) throw new Error('nothing to choose from');
  return found;
}

/** Shares above this say "not sure". */
const sureUpTo = 0.97;

/** An answer to a question, in words, by a share from 0 to 1; nothing where any words are an answer. */
function wordsFor(id: string, share: number): string | undefined {
  const { answer } = questionOf(book, id);
  if ('text' in answer) return undefined;
  if (share > sureUpTo) return 'not sure';
  const part = share / sureUpTo;
  if ('choice' in answer) return oneOf(Object.values(answer.choice), part).say;
  if ('many' in answer) return oneOf(Object.values(answer.many), part).say;
  if ('yes-no' in answer) return part < 0.5 ? 'yes' : 'no';
  if ('clock' in answer) return `${String(Math.floor(share * 24)).padStart(2, '0')}:30`;
  const measure = 'quantity' in answer ? answer.quantity : { ...answer.duration, unit: 'min' };
  const [low, high] = measure.plausible;
  return `${Number((low + part * (high - low)).toPrecision(3))} ${measure.unit}`;
}

/** Earlier questions whose answers can be changed at random. */
function changeable(state: State): string[] {
  const ids = new Set(state.past.map((given) => given.question));
  return [...ids].filter((id) => wordsFor(id, 0) !== undefined);
}

/** The lengths of a journal at which something is asked or waited for, so that a line can be typed. */
function restingPlaces(events: readonly TalkEvent[]): number[] {
  let state = emptyState;
  return events.flatMap((event, place) => {
    state = step(state, event).state;
    const rests = !state.evaluating && !state.paused && !state.ended && changeable(state).length > 0;
    return rests ? [place + 1] : [];
  });
}

/** The batch that is held most of the time, where changes are refused, comes up less often. */
const batches = demoBatches()
  .map(({ events }) => ({ events, places: restingPlaces(events) }))
  .flatMap((batch) => (batch.places.length > 100 ? [batch, batch, batch] : [batch]));

interface Edit {
  which: number;
  value: number;
}

const typed = { line: '', changes: 0, refused: 0 };

/** Types one change into a talk; gives the talk in which it was answered so at first. */
async function changeIn(edited: ToldTalk, straight: ToldTalk, edit: Edit): Promise<ToldTalk> {
  const question = oneOf(changeable(edited.state), edit.which);
  const index = edited.state.past.findLastIndex((given) => given.question === question);
  const line = `change ${question} to ${wordsFor(question, edit.value)}`;
  typed.line = line;
  const place = edited.events.length;
  await edited.session.type(line);
  // A change of an answer that was warned about is asked back first.
  if (edited.events[place]?.type === 'AnswerDoubted') await edited.session.type('yes');
  const event = edited.events.slice(place).find(({ type }) => type !== 'AnswerDoubted');
  if (event?.type === 'AnswerChanged') {
    typed.changes += 1;
    return talkStraight(straight.events, index, { answer: event.answer, text: line });
  }
  // Refused, because a stop holds or the line is doubtful: nothing but a doubt that was open may be different.
  expect(event?.type, line).toBe('AnswerNotUnderstood');
  typed.refused += 1;
  return straight;
}

function hasSomethingToSay({ asking, waiting, held, ended }: State): boolean {
  return asking !== undefined || waiting !== undefined || held.length > 0 || ended !== undefined;
}

async function checkEdits(which: number, stop: number, edits: readonly Edit[]): Promise<void> {
  const { events, places } = oneOf(batches, which);
  const begun = events.slice(0, oneOf(places, stop));
  const edited = new ToldTalk(begun);
  let straight = new ToldTalk(begun);
  for (const edit of edits) {
    if (edited.state.ended) break;
    straight = await changeIn(edited, straight, edit);
    const { line } = typed;
    expect({ line, ...whole(edited.state) }).toEqual({ line, ...whole(straight.state) });
    expect(replay(step, edited.events).state).toEqual(edited.state);
    expect(hasSomethingToSay(edited.state), `${line} leaves the talk with nothing to answer`).toBe(true);
  }
}

describe(`random changes of earlier answers, anywhere in the demo batches (seed ${seed}, ${runs} runs)`, () => {
  it('give the same state as having answered so at first, and the journal folds to it', async () => {
    const share = fc.noBias(fc.nat({ max: 9999 })).map((n) => n / 10_000);
    const edits = fc.array(fc.record({ which: share, value: share }), { minLength: 1, maxLength: 3 });
    const check = fc.asyncProperty(share, share, edits, checkEdits);
    await fc.assert(check, { seed, numRuns: runs, endOnFailure: true });
    // Else the property would say little: most lines must be taken, not refused.
    expect(typed.changes).toBeGreaterThan(2 * typed.refused);
  });
});
