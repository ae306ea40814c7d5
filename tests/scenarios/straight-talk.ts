import { readdirSync } from 'node:fs';
import { type Keeper, Session } from '../../src/commands/session.ts';
import type { EventBody, TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import type { Given, State } from '../../src/conversation/state.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';
import { book } from '../rulebook/cases.ts';
import { essence } from './essence.ts';

const step = makeStep(book);

const folder = new URL('../../transcripts-demo/', import.meta.url).pathname;

/** The demo batches as recorded; another test holds that their answers files give exactly these journals. */
export function demoBatches(): { name: string; events: TalkEvent[] }[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith('.ndjson'))
    .map((file) => ({ name: file.replace('.ndjson', ''), events: eventsOf(readJournal(folder + file)) }));
}

/** All that a talk has come to, as far as it can show later on; not how often answers were given on the way. */
export function whole(state: State) {
  const { delays, alarm, offered, undecided, deciding, floor, changing } = state;
  return {
    ...essence(state),
    true: state.true,
    undecided,
    deciding,
    delays,
    alarm,
    offered,
    floor,
    changing,
    waited: [...state.waited].sort(),
    saidOnce: [...state.saidOnce].sort(),
    lastFigures: [...state.lastFigures].sort(),
    cleared: Object.keys(state.cleared).sort(),
    spoke: Object.keys(state.traces).sort(),
    past: state.past.map(({ question, answer, at }) => ({ question, answer, at })),
    answeredAt: Object.fromEntries(Object.entries(state.answers).map(([id, { at }]) => [id, at])),
  };
}

/** A talk in memory that goes on from the beginning of a journal, at times that are set from outside. */
export class ToldTalk {
  readonly events: TalkEvent[];
  readonly said: string[] = [];
  readonly session: Session;
  now: string;

  constructor(begun: readonly TalkEvent[]) {
    this.events = [...begun];
    this.now = begun.at(-1)?.at ?? '';
    const keeper: Keeper = { append: (event) => this.events.push(event) };
    const clock = { now: () => this.now, wakeAfter: () => undefined };
    this.session = new Session(book, keeper, clock, {
      turn: (turn) => this.said.push(turn.text),
      changed: () => undefined,
    });
    this.session.restore(begun);
  }

  get state(): State {
    return this.session.state;
  }

  async happenAt(at: string, event: EventBody): Promise<void> {
    this.now = at;
    await this.session.dispatch(event);
  }
}

/** For every answer that still counts at the end of a journal, the place of its event. */
function placesOfAnswers(events: readonly TalkEvent[]): number[] {
  const places: number[] = [];
  let state: State = replay(step, []).state;
  for (const [place, event] of events.entries()) {
    state = step(state, event).state;
    if (event.type === 'AnswerGiven') places.push(place);
    places.length = Math.min(places.length, state.past.length);
  }
  return places;
}

type Opening = Extract<EventBody, { type: 'SessionOpened' }> & { at: string };

function openingsIn(events: readonly TalkEvent[]): Opening[] {
  return events.filter((event) => event.type === 'SessionOpened');
}

function answerOf({ question, answer, text }: Given): EventBody {
  return { type: 'AnswerGiven', question, answer, text };
}

/** An answer belongs to its question, in its stage, and at a stop to that stop. */
function answersWhatIsAsked(state: State, question: string | undefined, given: Given): boolean {
  const [hold] = state.held;
  return (
    given.question === question &&
    given.before.stage === state.stage &&
    (hold === undefined || given.before.held.some((one) => one.stop === hold.stop))
  );
}

/** What the maker of a straight talk has still to say and do. */
interface Rest {
  left: Given[];
  openings: Opening[];
  /** The question asked at the end although a wait came before it, and what had put that wait there. */
  due: { question: string; delay: string | undefined } | undefined;
}

type Happening = { at: string; event: EventBody };

function isDue(state: State, { due }: Rest): boolean {
  return (
    due !== undefined && due.question === state.waiting?.question && due.delay === state.delays[due.question]
  );
}

/** Trouble that was reported before the answer at a place among the rest. */
function troubleBefore(state: State, left: readonly Given[], place: number): Given | undefined {
  const trouble = left.findIndex((given) => given.question === 'alarm');
  const report = trouble < place && !state.alarm ? left[trouble] : undefined;
  return report?.before.stage === state.stage ? report : undefined;
}

/** An answer to what is asked, if there is one; before it the wait, the trouble and the break that came before it. */
function nextHappening(state: State, now: string, rest: Rest): Happening | undefined {
  const { left, openings } = rest;
  const question = state.asking ?? state.waiting?.question;
  const place = left.findIndex((given) => answersWhatIsAsked(state, question, given));
  const given = left[place];
  if (!state.asking && state.waiting && (given || isDue(state, rest))) {
    return { at: given?.at ?? now, event: { type: 'WaitEnded', how: 'in-time', waitedMinutes: 0 } };
  }
  const trouble = troubleBefore(state, left, place);
  if (trouble) return { at: trouble.at, event: { type: 'TroubleReported', text: trouble.text } };
  const [opening] = openings;
  if (opening && (!given || opening.at <= given.at)) {
    openings.shift();
    const { at, ...event } = opening;
    return { at, event };
  }
  if (!given) return undefined;
  left.splice(place, 1);
  return { at: given.at, event: answerOf(given) };
}

/**
 * The same batch, talked through by somebody who answered one question otherwise from the start: at the same times,
 * with the same words to everything that is still asked.
 * @param journal  of a talk in which nothing was changed
 * @param index    the answer, counted among those that still count
 */
export async function talkStraight(
  journal: readonly TalkEvent[],
  index: number,
  instead: Pick<Given, 'answer' | 'text'>,
): Promise<ToldTalk> {
  const { state: end } = replay(step, journal);
  const given = end.past[index];
  if (!given) throw new Error('there is no such answer');
  const place = placesOfAnswers(journal)[index];
  const talk = new ToldTalk(journal.slice(0, place));
  await talk.happenAt(given.at, answerOf({ ...given, ...instead }));
  const { asking, waited, delays } = end;
  const due = asking && waited.includes(asking) ? { question: asking, delay: delays[asking] } : undefined;
  const rest = { left: end.past.slice(index + 1), openings: openingsIn(journal.slice(place)), due };
  while (!talk.state.ended) {
    const next = nextHappening(talk.state, talk.now, rest);
    if (!next) break;
    await talk.happenAt(next.at, next.event);
  }
  return talk;
}
