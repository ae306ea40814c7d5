import type { Turn } from '../conversation/effects.ts';
import {
  type Answer,
  isOfReview,
  type ReviewEvent,
  type TalkEvent,
  type TroubleOutcome,
} from '../conversation/events.ts';
import { emptyState, type State } from '../conversation/state.ts';
import { makeStep } from '../conversation/step.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import type { Figure } from '../rulebook/evaluation.ts';
import type { Signal } from '../rulebook/signals.ts';
import { withStandIns } from './stand-ins.ts';
import { firstGiven, isHeldAgain, takeBack, takeChanged, takeWithdrawn } from './story-of-change.ts';
import { inVisit, takePath, visitsThatCount } from './visits.ts';

/** Where something stands in the log: the number of its record and its UTC time. */
export interface Place {
  record: number;
  at: string;
}

/** Something of a stage, and in which of its visits it was: the first is 1. */
export interface InVisit extends Place {
  stage: string;
  visit: number;
}

export interface AnswerTold extends InVisit {
  question: string;
  answer: Answer;
  text: string;
  /** When the question was answered first, where the maker put it right or the program gave the answer again. */
  givenAt?: string;
  /** Given again by the program after another one was put right: the record in which the maker gave it. */
  again?: number;
  /** The record of the maker's answer that this one puts right. */
  putsRight?: number;
  /** When the maker took it back, put it right, or changed an answer before it. */
  takenBack?: Place;
  /** Still counts at the end: not taken back, changed, or asked anew since. */
  stands: boolean;
}

export interface StageTold extends InVisit {
  /** When the talk left it; nothing while it is there. */
  left?: string;
  /** Keys of the conditions that held when the rules of this visit were looked at last. */
  holding?: readonly string[];
  /** When a change, or going back, went to before it: from then on it does not count. */
  undone?: Place;
}

export interface StopTold extends InVisit {
  stop: string;
  /** When it was cleared; nothing while it holds. */
  cleared?: Place;
  /** Held and cleared while the program gave answers again: it is told already as it was the first time. */
  again?: true;
}

export interface FigureTold extends Place {
  fact: string;
  figure: Figure;
  stage: string;
}

export interface AdviceTold extends InVisit {
  /** Id of the rule; empty for words that no rule of a stage speaks. */
  id: string;
  signal?: Signal;
  text: string;
}

export interface WaitTold extends InVisit {
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

/** An answer put right or taken back, and the record in which the maker had given it. */
export type WentBack = Place & { question: string; was?: number };

/** A batch as its log tells it, in the order in which things happened. */
export interface Story {
  /** The rules it was told by, with stand-ins for what the log speaks of and they no longer have. */
  book: Book;
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
  notes: (InVisit & { text: string })[];
  changes: WentBack[];
  /** Answers that the maker went back over. */
  takenBack: WentBack[];
  troubles: TroubleTold[];
  reviews: (Place & { event: ReviewEvent })[];
  /** Everything that was said, as the talk said it. */
  turns: (Turn & Place)[];
  /** The state at the end of the log. */
  state: State;
}

function emptyStory(book: Book): Story {
  return {
    book,
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
      const { question, answer, text } = event;
      const first = firstGiven(story, event);
      story.answers.push({ ...place, ...inVisit(before), ...first, question, answer, text, stands: false });
      return;
    }
    case 'AnswerChanged':
      takeChanged(story, event, place, before);
      return;
    case 'AnswerWithdrawn':
      takeWithdrawn(story, place, before);
      return;
    case 'RulesEvaluated': {
      const visit = visitsThatCount(story).at(-1);
      if (visit) visit.holding = event.outcome.true;
      return;
    }
    case 'NoteMade':
      story.notes.push({ ...place, ...inVisit(before), text: event.text });
      return;
    case 'TroubleReported':
      if (event.givenAt === undefined) story.troubles.push({ ...place, text: event.text });
      return;
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
      if (isOfReview(event)) story.reviews.push({ ...place, event });
  }
}

/** What changed in the state: stages entered and left, stops held and cleared, waits begun, figures worked out. */
function takeChange(story: Story, before: State, after: State, place: Place): void {
  takePath(story, before, after, place);
  for (const { stop } of after.held)
    if (!before.held.some((hold) => hold.stop === stop))
      story.stops.push({ ...place, ...inVisit(after), stop });
  for (const { stop } of before.held)
    if (!after.held.some((hold) => hold.stop === stop)) {
      const told = story.stops.findLast((one) => one.stop === stop && !one.cleared);
      if (!told) continue;
      told.cleared = place;
      if (after.changing && isHeldAgain(story, told)) told.again = true;
    }
  const { waiting } = after;
  if (waiting && waiting.since !== before.waiting?.since)
    story.waits.push({
      ...place,
      ...inVisit(after),
      question: waiting.question,
      minutes: waiting.minutes,
    });
  if (after.figures === before.figures) return;
  for (const [fact, figure] of Object.entries(after.figures))
    if (figure !== before.figures[fact]) story.figures.push({ ...place, fact, figure, stage: after.stage });
}

function takeTurn(story: Story, turn: Turn, place: Place, after: State): void {
  story.turns.push({ ...turn, ...place });
  if (turn.kind !== 'advice') return;
  const signal = turn.signal ? { signal: turn.signal } : {};
  story.advice.push({ ...place, ...inVisit(after), ...signal, id: turn.id ?? '', text: turn.text });
}

/** Marks the answers that the state at the end still rests on; of one given again, also the maker's own. */
function markStanding(story: Story): void {
  for (const [question, { answer }] of Object.entries(story.state.answers)) {
    const given = story.answers.findLast((one) => one.question === question && one.answer === answer);
    for (const told of story.answers) if (told === given || told.record === given?.again) told.stands = true;
  }
}

/** Folds a log and tells what happened; pure, and the same at every reading. */
export function tellStory(book: Book, log: readonly Numbered[]): Story {
  const story = emptyStory(withStandIns(book, log));
  const step = makeStep(story.book);
  let state = emptyState;
  for (const { seq, event } of log) {
    const place = { record: seq, at: event.at };
    const { state: next, effects } = step(state, event);
    takeEvent(story, event, place, state);
    takeBack(story, state, next, place);
    takeChange(story, state, next, place);
    for (const effect of effects) if (effect.do === 'say') takeTurn(story, effect.turn, place, next);
    state = next;
    story.records += 1;
    story.last = event.at;
  }
  story.state = state;
  markStanding(story);
  return story;
}
