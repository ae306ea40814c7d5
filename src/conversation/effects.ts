import type { Occasion } from '../rulebook/evaluation.ts';
import type { Signal } from '../rulebook/signals.ts';
import type { Answer } from './events.ts';
import type { TroubleCase } from './trouble/trouble-case.ts';

export type TurnKind =
  | 'stage'
  | 'answer'
  | 'advice'
  | 'figure'
  | 'stop'
  | 'cleared'
  | 'wait'
  | 'asks-back'
  | 'help'
  | 'note'
  | 'session'
  | 'end';

/** One finished piece of the talk, as both faces show it. */
export interface Turn {
  kind: TurnKind;
  at: string;
  text: string;
  signal?: Signal;
  /** The rule or question that speaks. */
  id?: string;
  because?: string;
  /** Set on answers: the question in words. */
  asked?: string;
}

/** What the outside should do. Imperative, plain data; order matters. */
export type Effect =
  | { do: 'say'; turn: Turn }
  | { do: 'evaluate'; occasion: Occasion }
  /** Run the rules as if a question had been answered otherwise; nothing is taken as a fact. */
  | { do: 'consider'; question: string; answer: Answer; occasion: Occasion }
  /** Weigh the causes of a trouble on what is known of it and of the batch. */
  | { do: 'weigh'; trouble: TroubleCase; occasion: Occasion }
  | { do: 'setTimer'; minutes: number }
  /** Take an answer that the maker gave ahead of its question. */
  | { do: 'give'; question: string; answer: Answer; text: string }
  | { do: 'close' };
