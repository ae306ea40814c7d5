import { showMinutes } from '../conversation/time.ts';

/** A UTC time to the minute: 2026-03-02 08:00. */
export function showTime(at: string): string {
  return `${at.slice(0, 10)}\u00a0${at.slice(11, 16)}`;
}

/** A length of time in the largest unit that reads well; parts of a minute do not matter here. */
export function showLength(minutes: number): string {
  if (minutes < 1) return 'less than 1\u00a0min';
  return showMinutes(Math.round(minutes));
}

export function minutesBetween(from: string, to: string): number {
  return (Date.parse(to) - Date.parse(from)) / 60_000;
}
