import type { Turn } from '../conversation/effects.ts';
import { safeLine, safeText } from '../conversation/safe-text.ts';
import type { View } from '../conversation/view.ts';

/** A finished turn as lines of text; meaning never rests on colour or place alone. */
export function turnLines(turn: Turn): string[] {
  const text = safeText(turn.text);
  switch (turn.kind) {
    case 'stage':
      return ['', `== ${safeLine(turn.text)} ==`, ...reason(turn, '')];
    case 'answer':
      return [`  ${safeLine(turn.asked ?? '')}`, `  -> ${safeLine(turn.text)}`];
    case 'stop':
      return ['', `STOP ${turn.id}  ${turn.signal}`, ...indented(text), ...reason(turn, '  Why: ')];
    case 'cleared':
      return [`  STOP ${turn.id} CLEARED. ${text}`];
    case 'help':
      return text.split('\n').map((line) => `  ? ${line}`);
    default:
      return [...indented(`${turn.signal ? `${turn.signal}: ` : ''}${text}`), ...reason(turn, '    Why: ')];
  }
}

function indented(text: string): string[] {
  return text.split('\n').map((line) => `  ${line}`);
}

function reason(turn: Turn, opening: string): string[] {
  return turn.because ? [`${opening}${safeText(turn.because)}`] : [];
}

/** The open question, wait or confirmation as lines of text. */
export function promptLines(view: View, endsAt: (since: string, minutes: number) => string): string[] {
  const stage = `${view.step}/${view.steps} ${view.stage}${view.part ? `, ${view.part}` : ''}`;
  const place = `[${view.heading ? safeLine(view.heading) : stage}]`;
  const held =
    view.held.length > 0
      ? [`HELD BY ${view.held.map((stop) => `${stop.id} (${stop.signal})`).join(', ')}`]
      : [];
  if (view.question) {
    const choices = view.question.choices.map((choice) => `    ${choice.key} ${choice.say}`);
    const hint = view.confirms
      ? `(${view.confirms})`
      : `(${view.question.hint}; ? for what else you can say)`;
    return ['', place, ...held, safeLine(view.question.ask), ...choices.map(safeLine), safeLine(hint)];
  }
  if (view.waiting) {
    const until = endsAt(view.waiting.since, view.waiting.minutes);
    const confirms = view.confirms ? [`(${safeLine(view.confirms)})`] : [];
    return ['', place, ...held, `Waiting until ${until}: ${safeLine(view.waiting.for)}`, ...confirms];
  }
  return held.length > 0 ? ['', place, ...held] : [];
}

/** A local clock time, with the day when it is another one. */
export function localEnd(since: string, minutes: number): string {
  const end = new Date(Date.parse(since) + minutes * 60_000);
  const time = end.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const sameDay = end.toDateString() === new Date(since).toDateString();
  return sameDay
    ? time
    : `${time} on ${end.toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' })}`;
}
