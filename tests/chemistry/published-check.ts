/** One figure of ours against one that somebody else published. */
export interface PublishedCheck {
  what: string;
  /** Name in the catalogue, or of an exported function. */
  of: string;
  run(): number;
  published: number;
  unit: string;
  /** What the source supports, or what our estimate claims where it is only an estimate. */
  tolerance: { absolute: number } | { percent: number };
  /** Id in rules/sources.yaml. */
  source: string;
  where: string;
  seen: 'looked-up' | 'from-memory';
  note?: string;
}

type Seen = PublishedCheck['seen'];

/** How far the result may lie from the published value, in its unit. */
export function allowed({ published, tolerance }: PublishedCheck): number {
  return 'absolute' in tolerance ? tolerance.absolute : (Math.abs(published) * tolerance.percent) / 100;
}

/** The parts that a run of checks from one source has in common. */
export function fromSource(source: string, seen: Seen) {
  return (where: string, unit: string, tolerance: PublishedCheck['tolerance']) =>
    (of: string, what: string, published: number, run: () => number, note?: string): PublishedCheck => ({
      what,
      of,
      run,
      published,
      unit,
      tolerance,
      source,
      where,
      seen,
      ...(note === undefined ? {} : { note }),
    });
}

/** A published span as its middle and half its width; the check then says: inside the span. */
export function span(low: number, high: number): { middle: number; half: number } {
  return { middle: (low + high) / 2, half: (high - low) / 2 };
}

export const kelvin = (celsius: number): number => celsius + 273.15;
export const celsiusOf = (fahrenheit: number): number => (fahrenheit - 32) / 1.8;
