import type { View } from '../conversation/view.ts';

/** How much of the prompt fits: everything, choices run together, or only the question and the keys. */
export type Room = 'full' | 'tight' | 'bare';

/** The margin, the line being typed, and one line that must stay free: a frame as tall as the window clears it. */
const fixedLines = 3;

function wrapped(text: string, columns: number): number {
  return Math.max(1, Math.ceil(text.length / Math.max(1, columns - 1)));
}

/** Lines that the live part takes when it is shown in full. */
function fullHeight(view: View, statusText: string, columns: number): number {
  const asked = view.question ? wrapped(view.question.ask, columns) : 1;
  const choices = (view.question?.choices ?? []).map((choice) => wrapped(choice.say, columns - 4));
  const hint = wrapped(view.confirms ?? view.question?.hint ?? '', columns) + 1;
  const held = view.held.length > 0 ? 1 : 0;
  return (
    fixedLines +
    wrapped(statusText, columns) +
    held +
    asked +
    choices.reduce((sum, lines) => sum + lines, 0) +
    hint
  );
}

/** Picks how much is shown, so that the live part always stays shorter than the window. */
export function roomFor(view: View, statusText: string, rows: number, columns: number): Room {
  if (fullHeight(view, statusText, columns) < rows) return 'full';
  const run = (view.question?.choices ?? []).map((choice) => choice.say).join('    ');
  const tight = fixedLines + 2 + wrapped(view.question?.ask ?? '', columns) + wrapped(run, columns);
  return tight < rows ? 'tight' : 'bare';
}
