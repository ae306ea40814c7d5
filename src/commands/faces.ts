import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import { PlainTalk } from '../plain/plain-talk.ts';

/** What shows a talk and takes what is typed. */
export interface Face {
  turn(turn: Turn): void;
  /** Something below the finished turns is different. */
  changed(): void;
  /** Shows the talk until it is over; `earlier` turns may be shown before it. */
  run(talk: Talk, earlier: readonly Turn[]): Promise<void>;
}

/** Ink and its colours read these when they load: CI would hide the live part, NO_COLOR is not heard. */
function prepareForInk(): void {
  delete process.env.CI;
  delete process.env.CONTINUOUS_INTEGRATION;
  if (process.env.NO_COLOR) process.env.FORCE_COLOR = '0';
}

/** Whether a screen can be drawn at all. */
export function hasScreen(): boolean {
  return Boolean(process.stdin.isTTY && process.stdout.isTTY && process.env.TERM !== 'dumb');
}

export function plainFace(): Face {
  return new PlainTalk({ input: process.stdin, output: process.stdout });
}

/** The face that fits: lines of text where they are asked for or nothing else can be shown, else the screen. */
export async function openFace(plain: boolean): Promise<Face> {
  if (plain || !hasScreen()) return plainFace();
  prepareForInk();
  const { ScreenTalk } = await import('../screen/screen-talk.tsx');
  return new ScreenTalk();
}
