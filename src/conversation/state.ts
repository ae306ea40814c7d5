import type { AnswerStatus, Evaluation, Figure } from '../rulebook/evaluation.ts';
import type { Answer } from './events.ts';
import type { TroubleTalk } from './trouble/trouble-case.ts';
import type { Either } from './understanding/reading.ts';

/** An answered question as the rules see it now. */
export interface Answered {
  answer: Answer;
  status: AnswerStatus;
  at: string;
  /** Counts answers through the batch, so that an answer given anew is told from the old one. */
  turn: number;
}

export interface Wait {
  question: string;
  /** When it began (UTC) and how long it is; whoever has a clock works out when it ends. */
  since: string;
  minutes: number;
  for: string;
  /** A wait that a stop demands is not shortened. */
  fixed: boolean;
  /** The maker wanted to look long before it is over and was asked back; a yes now ends it. */
  pressed?: true | undefined;
}

export interface Doubt {
  question: string;
  says: string;
  meant: Answer;
  typed: Answer | undefined;
  text: string;
  either?: Either | undefined;
  /** What is settled is a change of an earlier answer, not the answer to what is asked. */
  changes?: true | undefined;
  also?: readonly Offered[] | undefined;
}

/** An answer given ahead of its question. */
export interface Offered {
  question: string;
  answer: Answer;
}

export interface Hold {
  stop: string;
  session: number;
}

/** An answer as it was given, and the state before it (without a past of its own). */
export interface Given {
  before: State;
  question: string;
  answer: Answer;
  text: string;
  /** When it was first given (UTC). */
  at: string;
}

/** How the talk stood when an earlier answer was changed. */
export interface Changing {
  question: string;
  figures: Record<string, Figure>;
  stage: string;
  waiting: Wait | undefined;
  /** Keys of the rules that had spoken. */
  spoke: readonly string[];
}

/** Plain data, rebuilt from events; never stored. */
export interface State {
  batch: string;
  /** When the batch was opened (UTC). */
  openedAt: string;
  stage: string;
  path: string[];
  turn: number;
  session: number;
  answers: Record<string, Answered>;
  /** Answers that the maker gave ahead of their questions, in the same visit of the stage. */
  offered: readonly (Offered & { text: string })[];
  /** Which wording of the questions the maker asked for; by experience when not said. */
  wording: 'long' | 'short' | undefined;
  figures: Record<string, Figure>;
  /** The figures that were new or changed last. */
  lastFigures: readonly string[];
  /** Keys of advice and figures already told in this visit of the stage. */
  told: string[];
  /** What is said once in a batch only: refused calculations, figures close to a line. */
  saidOnce: string[];
  /** Waits that advice put before questions it asks again, by question. */
  delays: Record<string, string>;
  /** Questions whose delay was asked for by advice of DANGER: it is not shortened. */
  firm: readonly string[];
  /** Questions whose wait is over. */
  waited: string[];
  asking: string | undefined;
  waiting: Wait | undefined;
  doubt: Doubt | undefined;
  /** An evaluation has been asked for and has not come back. */
  evaluating: boolean;
  /** Conditions of this stage that the last evaluation found true, and what the undecided ones wait for. */
  true: string[];
  undecided: Record<string, string[]>;
  /** Questions of purpose `decide` that can still change what a rule of the stage says. */
  deciding: string[];
  held: Hold[];
  /** Cleared stops, with what the facts they look at were then. */
  cleared: Record<string, string>;
  /** The maker reported trouble; what it is comes before everything else. */
  alarm: boolean;
  /** What went wrong is being found out; the talk of the stage rests meanwhile. */
  trouble: TroubleTalk | undefined;
  /** Every answer given, with the state before it: what `back` and `change` return to. */
  past: Given[];
  /** How many of them may no longer be taken back one by one: going back is no way round a stop. */
  floor: number;
  /** When the maker came back after a long absence and was asked for the moment again (UTC). */
  absences: readonly string[];
  /** Answers taken back after a danger was told on the strength of them; another one is said back first. */
  challenged: Readonly<Record<string, Answer>>;
  /** The report of trouble was taken back, with a typed yes. */
  mistaken: boolean;
  /** An earlier answer was changed and those after it are being given again. */
  changing: Changing | undefined;
  /** Why each rule spoke, as recorded when it did. */
  traces: Record<string, Evaluation['traces'][string]>;
  ended: 'finished' | 'rejected' | 'abandoned' | undefined;
  paused: boolean;
  /** A pause was asked for where it is not safe, and what to do first has been said. */
  pauseWarned: boolean;
}

export const emptyState: State = {
  batch: '',
  openedAt: '',
  stage: '',
  path: [],
  turn: 0,
  session: 0,
  answers: {},
  offered: [],
  wording: undefined,
  figures: {},
  lastFigures: [],
  told: [],
  saidOnce: [],
  delays: {},
  asking: undefined,
  waiting: undefined,
  doubt: undefined,
  true: [],
  undecided: {},
  deciding: [],
  ended: undefined,
  waited: [],
  evaluating: false,
  held: [],
  cleared: {},
  alarm: false,
  trouble: undefined,
  past: [],
  floor: 0,
  absences: [],
  challenged: {},
  mistaken: false,
  firm: [],
  changing: undefined,
  traces: {},
  paused: false,
  pauseWarned: false,
};
