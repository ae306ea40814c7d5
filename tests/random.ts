/** A stream of numbers from 0 up to 1, the same for the same seed. */
export type Random = () => number;

/** Mulberry32: small, seeded, good enough to draw cases with. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** A place in the list, each as likely as its share. */
export function pickBy(random: Random, shares: ArrayLike<number>): number {
  let left = random() * Array.from(shares).reduce((sum, one) => sum + one, 0);
  for (let index = 0; index < shares.length; index += 1) {
    left -= shares[index] ?? 0;
    if (left < 0) return index;
  }
  return Math.max(0, shares.length - 1);
}
