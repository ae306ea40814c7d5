/** Ink and its colours read these when they load: CI would hide the live part, NO_COLOR is not heard. */
export function prepareForInk(): void {
  delete process.env.CI;
  delete process.env.CONTINUOUS_INTEGRATION;
  if (process.env.NO_COLOR) process.env.FORCE_COLOR = '0';
}

/** Whether a screen can be drawn at all. */
export function hasScreen(): boolean {
  return Boolean(process.stdin.isTTY && process.stdout.isTTY && process.env.TERM !== 'dumb');
}
