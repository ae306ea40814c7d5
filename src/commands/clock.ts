/** Where time comes from. */
export interface Clock {
  /** Now, UTC, ISO 8601. */
  now(): string;
  /** The time of day where the maker is, like 14:35; not told by a clock that only counts. */
  timeOfDay?(): string;
  /** Calls back after so many milliseconds, where time passes by itself. */
  wakeAfter(milliseconds: number, then: () => void): NodeJS.Timeout | undefined;
}

/** The longest delay that setTimeout takes. */
const longestTimer = 2 ** 31 - 1;

export const realClock: Clock = {
  now: () => new Date().toISOString(),
  timeOfDay: () => new Date().toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' }),
  wakeAfter: (milliseconds, then) => setTimeout(then, Math.min(milliseconds, longestTimer)),
};

/** A clock for unattended talks: every look is a second later, and waits are jumped over by `pass`. */
export class FixedClock implements Clock {
  private at: number;

  constructor(start: string) {
    this.at = Date.parse(start);
  }

  now(): string {
    this.at += 1000;
    return new Date(this.at).toISOString();
  }

  pass(minutes: number): void {
    this.at += minutes * 60_000;
  }

  wakeAfter(): undefined {
    return undefined;
  }
}
