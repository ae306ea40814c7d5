const minutesPer: Record<string, number> = { min: 1, h: 60, day: 1440 };

/** Minutes in a time as rule files write it: "30 min", "8 h", "2 day". */
export function minutesIn(time: string): number {
  const [amount, unit] = time.split(' ');
  return Number(amount) * (minutesPer[unit ?? ''] ?? Number.NaN);
}

/** A number of minutes as a person says it. */
export function showMinutes(minutes: number): string {
  if (minutes < 120) return `${minutes}\u00a0min`;
  if (minutes < 2880) return `${Number((minutes / 60).toFixed(1))}\u00a0h`;
  return `${Number((minutes / 1440).toFixed(1))}\u00a0days`;
}
