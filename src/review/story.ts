import type { Turn } from '../conversation/effects.ts';
import type { Answer, EventBody, TalkEvent, TroubleOutcome } from '../conversation/events.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep } from '../conversation/step.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import type { Figure } from '../rulebook/evaluation.ts';
import type { Signal } from '../rulebook/signals.ts';
import { withStandIns } from './stand-ins.ts';

/** Where something stands in the log: the number of its record and its UTC time. */
export interface Place {
  record: number;
  at: string;
}

export interface AnswerTold extends Place {
  stage: string;
  question: string;
  answer: Answer;
  text: string;
  /** Given again by the program after an earlier answer was put right; the time it was first given. */
  givenAt?: string;
  /** When the maker took it back, put it right, or changed an answer before it. */
  takenBack?: Place;
  /** Still counts at the end: not taken back, changed, or asked anew since. */
  stands: boolean;
}

export interface StageTold extends Place {
  stage: string;
  /** When the talk left it; nothing while it is there. */
  left?: string;
  /** Keys of the conditions that held when the rules of this visit were looked at last. */
  holding?: readonly string[];
}

export interface StopTold extends Place {
  stop: string;
  stage: string;
  /** When it was cleared; nothing while it holds. */
  cleared?: Place;
}

export interface FigureTold extends Place {
  fact: string;
  figure: Figure;
  stage: string;
}

export interface AdviceTold extends Place {
  /** Id of the rule; empty for words that no rule of a stage speaks. */
  id: string;
  signal?: Signal;
  text: string;
  stage: string;
}

export interface WaitTold extends Place {
  question: string;
  /** How long it was to be, and how long it was, in minutes. */
  minutes: number;
  waited?: number;
  how?: 'in-time' | 'early' | 'again';
}

export interface TroubleTold extends Place {
  text: string;
  outcome?: TroubleOutcome;
}

type EventOf<T extends EventBody['type']> = Extract<EventBody, { type: T }>;

/** A batch as its log tells it, in the order in which things happened. */
export interface Story {
  batch: string;
  opened: string;
  /** Opened only to find out what went wrong; nothing else of a batch was done. */
  purpose?: 'trouble';
  last: string;
  records: number;
  sessions: Place[];
  stages: StageTold[];
  answers: AnswerTold[];
  /** Every value that a figure had. */
  figures: FigureTold[];
  advice: AdviceTold[];
  stops: StopTold[];
  waits: WaitTold[];
  notes: (Place & { text: string })[];
  changes: (Place & { question: string })[];
  /** Answers that the maker went back over. */
  takenBack: (Place & { question: string })[];
  troubles: TroubleTold[];
  reviews: (Place & { event: EventOf<'ReviewOpened' | 'CommentMade' | 'CheckSeen' | 'ReviewSigned'> })[];
  /** Everything that was said, as the talk said it. */
  turns: (Turn & Place)[];
  /** The state at the end of the log. */
  state: State;
}

const reviewing = ['ReviewOpened', 'CommentMade', 'CheckSeen', 'ReviewSigned'];

function emptyStory(): Story {
  return {
    batch: '',
    opened: '',
    last: '',
    records: 0,
    sessions: [],
    stages: [],
    answers: [],
    figures: [],
    advice: [],
    stops: [],
    waits: [],
    notes: [],
    changes: [],
    takenBack: [],
    troubles: [],
    reviews: [],
    turns: [],
    state: emptyState,
  };
}

/** What an event says by itself. */
function takeEvent(story: Story, event: TalkEvent, place: Place, before: State): void {
  switch (event.type) {
    case 'BatchOpened':
      story.batch = event.batch;
      story.opened = event.at;
      if (event.purpose) story.purpose = event.purpose;
      story.sessions.push(place);
      return;
    case 'SessionOpened':
      story.sessions.push(place);
      return;
    case 'AnswerGiven': {
      const { question, answer, text, givenAt } = event;
      const again = givenAt === undefined ? {} : { givenAt };
      story.answers.push({ ...place, ...again, stage: before.stage, question, answer, text, stands: false });
      return;
    }
    case 'AnswerChanged': {
      const { question, answer, text } = event;
      story.changes.push({ ...place, question });
      story.answers.push({ ...place, stage: before.stage, question, answer, text, stands: false });
      return;
    }
    case 'AnswerWithdrawn': {
      const question = before.past.length > before.floor ? before.past.at(-1)?.question : undefined;
      if (question) story.takenBack.push({ ...place, question });
      return;
    }
    case 'RulesEvaluated': {
      const visit = story.stages.at(-1);
      if (visit) visit.holding = event.outcome.true;
      return;
    }
    case 'NoteMade':
      story.notes.push({ ...place, text: event.text });
      return;
    case 'TroubleReported':
    case 'TroubleDescribed':
      story.troubles.push({ ...place, text: event.text });
      return;
    case 'TroubleWeighed': {
      const trouble = story.troubles.at(-1);
      if (trouble) trouble.outcome = event.outcome;
      return;
    }
    case 'WaitEnded': {
      const wait = story.waits.at(-1);
      if (wait) Object.assign(wait, { waited: event.waitedMinutes, how: event.how });
      return;
    }
    default:
      if (reviewing.includes(event.type))
        story.reviews.push({ ...place, event: event as Story['reviews'][number]['event'] });
  }
}

/** Answers that an event took out of the talk: the last one, or a changed one and all that came after it. */
function takeBack(story: Story, before: State, after: State, place: Place): void {
  const kept = before.past.findIndex((given, index) => given !== after.past[index]);
  if (kept < 0) return;
  for (const given of before.past.slice(kept)) {
    const told = story.answers.findLast(
      (one) => one.question === given.question && one.answer === given.answer,
    );
    if (told && told.record !== place.record) told.takenBack = place;
  }
}

/** What changed in the state: stages entered and left, stops held and cleared, waits begun, figures worked out. */
function takeChange(story: Story, before: State, after: State, place: Place): void {
  if (after.path.length > before.path.length) {
    const leaving = story.stages.at(-1);
    if (leaving) leaving.left = place.at;
    for (const stage of after.path.slice(before.path.length)) story.stages.push({ ...place, stage });
  }
  for (const { stop } of after.held)
    if (!before.held.some((hold) => hold.stop === stop))
      story.stops.push({ ...place, stop, stage: after.stage });
  for (const { stop } of before.held)
    if (!after.held.some((hold) => hold.stop === stop)) {
      const told = story.stops.findLast((one) => one.stop === stop && !one.cleared);
      if (told) told.cleared = place;
    }
  const { waiting } = after;
  if (waiting && waiting.since !== before.waiting?.since)
    story.waits.push({ ...place, question: waiting.question, minutes: waiting.minutes });
  if (after.figures === before.figures) return;
  for (const [fact, figure] of Object.entries(after.figures))
    if (figure !== before.figures[fact]) story.figures.push({ ...place, fact, figure, stage: after.stage });
}

function takeTurn(story: Story, turn: Turn, place: Place, stage: string): void {
  story.turns.push({ ...turn, ...place });
  if (turn.kind !== 'advice') return;
  const signal = turn.signal ? { signal: turn.signal } : {};
  story.advice.push({ ...place, ...signal, id: turn.id ?? '', text: turn.text, stage });
}

/** Marks the answers that the state at the end still rests on. */
function markStanding(story: Story): void {
  for (const [question, { answer }] of Object.entries(story.state.answers)) {
    const given = story.answers.findLast((one) => one.question === question && one.answer === answer);
    if (given) given.stands = true;
  }
}

/** Folds a log and tells what happened; pure, and the same at every reading. */
export function tellStory(book: Book, log: readonly Numbered[]): Story {
  const step = makeStep(withStandIns(book, log));
  const story = emptyStory();
  let state = emptyState;
  for (const { seq, event } of log) {
    const place = { record: seq, at: event.at };
    const { state: next, effects } = step(state, event);
    takeEvent(story, event, place, state);
    takeBack(story, state, next, place);
    takeChange(story, state, next, place);
    for (const effect of effects) if (effect.do === 'say') takeTurn(story, effect.turn, place, next.stage);
    state = next;
    story.records += 1;
    story.last = event.at;
  }
  story.state = state;
  markStanding(story);
  return story;
}
