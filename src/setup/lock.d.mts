export interface Patience {
  readonly pollMs?: number;
  readonly patienceMs?: number;
}
export function withLock<T>(
  dir: string,
  work: (alsoWaitFor: (pid: number) => void) => Promise<T>,
  patience?: Patience,
): Promise<T>;
