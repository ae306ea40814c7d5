import type { Found } from '../../diagnosis/trouble.ts';
import type { TroubleOutcome } from '../events.ts';

/** A trouble as far as it is known: what the causes are weighed on. */
export interface TroubleCase {
  complaint: string | undefined;
  /** A trouble stage; nothing where the maker does not know. */
  stage: string | undefined;
  found: readonly Found[];
  /** Checks that were put and not answered. */
  passed: readonly string[];
  /** Gates of checks that do not apply here. */
  denied: readonly string[];
  /** Causes that the maker says it is not. */
  ruledOut: readonly string[];
}

/** Finding out what went wrong, as far as the talk has come. */
export interface TroubleTalk extends TroubleCase {
  /** Opened by itself, without a batch around it. */
  alone: boolean;
  stageSettled: boolean;
  /** The complaint is known, or the maker cannot say which it is. */
  complaintSettled: boolean;
  /** What the maker said, and what it was taken to say; it counts once it is confirmed. */
  words: string | undefined;
  proposed: readonly string[];
  read: readonly Found[];
  /** Readings that were not confirmed together: each is asked by itself. */
  toAsk: readonly string[];
  /** A choice of the alarm question that has to be dealt with before anything else. */
  alarmDue: string | undefined;
  weighing: boolean;
  outcome: TroubleOutcome | undefined;
  /** What the log of the batch already says has been said. */
  toldLog: boolean;
  /** The verdict has been said. */
  told: boolean;
  /** That two causes are likely at once has been said. */
  toldTwo: boolean;
}

export const noTrouble: TroubleTalk = {
  alone: false,
  complaint: undefined,
  stage: undefined,
  stageSettled: false,
  complaintSettled: false,
  words: undefined,
  proposed: [],
  read: [],
  toAsk: [],
  found: [],
  passed: [],
  denied: [],
  ruledOut: [],
  alarmDue: undefined,
  weighing: false,
  outcome: undefined,
  toldLog: false,
  told: false,
  toldTwo: false,
};
