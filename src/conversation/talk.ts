import type { State } from './state.ts';

/** What a face may do with a running talk: look at it and pass on what was typed. */
export interface Talk {
  readonly state: State;
  type(line: string): Promise<void>;
  minutesWaited(): number;
}
