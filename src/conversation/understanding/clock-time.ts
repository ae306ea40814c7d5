const day = 24 * 60;

function minutesOf(time: string): number {
  const [hour, minute] = time.split(':').map(Number);
  return (hour ?? 0) * 60 + (minute ?? 0);
}

/** Minutes from one time of day to another, the nearer way round the clock: from 23:50 to 00:10 it is 20. */
export function minutesFrom(one: string, other: string): number {
  const ahead = (minutesOf(other) - minutesOf(one) + day) % day;
  return ahead > day / 2 ? ahead - day : ahead;
}
