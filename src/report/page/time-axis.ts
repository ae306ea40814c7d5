import { type ScaleLinear, scaleLinear } from 'd3-scale';

const hour = 60;
/** A longer time with nothing in it is drawn this long, and marked. */
const longestDrawn = 2 * hour;
const closestTicks = 40;
const steps = [5, 10, 15, 30, hour, 2 * hour, 3 * hour];

export interface Break {
  x: number;
  minutes: number;
}

export interface Tick {
  x: number;
  time: string;
  /** Set where a new day begins on the axis. */
  day?: string;
}

export interface TimeAxis {
  x: (at: string) => number;
  breaks: Break[];
  ticks: Tick[];
  /** Whether a break lies between two moments. */
  isBroken: (from: string, to: string) => boolean;
}

const minutesOf = (at: string) => Date.parse(at) / 60_000;

function clockOf(minutes: number): { time: string; day: string } {
  const text = new Date(minutes * 60_000).toISOString();
  return { time: text.slice(11, 16), day: text.slice(0, 10) };
}

/** Whole steps of the clock inside a stretch, and its two ends. */
function stopsIn(from: number, to: number, perMinute: number): number[] {
  const step = steps.find((one) => one * perMinute >= closestTicks) ?? 6 * hour;
  const whole: number[] = [];
  for (let at = Math.ceil(from / step) * step; at < to; at += step) whole.push(at);
  return [from, to, ...whole];
}

/** The ends of stretches come first; whatever would touch one of them is left out. */
function spread(x: ScaleLinear<number, number>, wanted: readonly number[]): number[] {
  const kept: number[] = [];
  for (const at of wanted) if (kept.every((one) => Math.abs(x(one) - x(at)) >= closestTicks)) kept.push(at);
  return kept.sort((one, other) => one - other);
}

/** A time axis on which long empty times are drawn short: waits of a night would leave no room for the work. */
export function timeAxis(moments: readonly string[], [left, right]: readonly [number, number]): TimeAxis {
  const times = [...new Set(moments.map(minutesOf))].sort((one, other) => one - other);
  const lengths = times.slice(1).map((at, index) => at - (times[index] ?? at));
  const drawn = lengths.map((length) => Math.min(length, longestDrawn));
  const whole = drawn.reduce((sum, length) => sum + length, 0) || 1;
  const perMinute = (right - left) / whole;
  const places = [left];
  for (const length of drawn) places.push((places.at(-1) ?? left) + length * perMinute);
  const x = scaleLinear<number, number>().domain(times).range(places);
  const isLong = (index: number) => (lengths[index] ?? 0) > longestDrawn;
  const breaks = lengths.flatMap((minutes, index) =>
    isLong(index) ? [{ x: ((places[index] ?? left) + (places[index + 1] ?? right)) / 2, minutes }] : [],
  );
  const stretches = times
    .slice(1)
    .flatMap((to, index) => (isLong(index) ? [] : stopsIn(times[index] ?? to, to, perMinute)));
  const ends = [
    times[0] ?? 0,
    times.at(-1) ?? 0,
    ...times.filter((_at, index) => isLong(index) || isLong(index - 1)),
  ];
  let day = '';
  const ticks = spread(x, [...ends, ...stretches]).map((at) => {
    const clock = clockOf(at);
    const isNew = clock.day !== day;
    day = clock.day;
    return { x: x(at), time: clock.time, ...(isNew ? { day } : {}) };
  });
  const isBroken = (from: string, to: string) => {
    const [start, end] = [x(minutesOf(from)), x(minutesOf(to))];
    return breaks.some((one) => one.x > start && one.x < end);
  };
  return { x: (at) => x(minutesOf(at)), breaks, ticks, isBroken };
}
