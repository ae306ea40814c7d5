import { Box, Text } from 'ink';
import { safeLine } from '../conversation/safe-text.ts';
import type { View } from '../conversation/view.ts';
import type { Line } from './line-editor.ts';
import { type Room, roomFor } from './room.ts';

type EndsAt = (since: string, minutes: number) => string;

interface Props {
  view: View;
  line: Line;
  rows: number;
  columns: number;
  endsAt: EndsAt;
  problem: string | undefined;
}

function statusText(view: View): string {
  const part = view.part ? `, ${view.part}` : '';
  if (view.heading) return `${safeLine(view.heading)}  log ${safeLine(view.batch)}`;
  const place = `Stage ${view.step} of ${view.steps}: ${view.stage}${part}`;
  return `${place}  answered ${view.answered} of up to ${view.asks}  batch ${safeLine(view.batch)}`;
}

function Held({ view }: { view: View }) {
  if (view.held.length === 0) return null;
  const stops = view.held.map((stop) => `${stop.id} (${stop.signal})`).join(', ');
  return (
    <Text bold color="red">
      HELD BY {stops}
    </Text>
  );
}

function Choices({ view, room }: { view: View; room: Room }) {
  const choices = view.question?.choices ?? [];
  if (choices.length === 0) return null;
  if (room === 'bare') return <Text wrap="truncate">Keys 1 to {choices.length}; ? for help</Text>;
  if (room === 'tight') {
    return <Text>{choices.map(({ key, say }) => `${key || '-'} ${safeLine(say)}`).join('  ')}</Text>;
  }
  return (
    <Box flexDirection="column" paddingLeft={2}>
      {choices.map(({ key, say }) => (
        <Text key={say}>
          <Text bold>{key || '-'}</Text> {safeLine(say)}
        </Text>
      ))}
    </Box>
  );
}

function Asked({ view, room, endsAt }: { view: View; room: Room; endsAt: EndsAt }) {
  if (view.question) {
    const hint = view.confirms
      ? safeLine(view.confirms)
      : `${view.question.hint}; ? for what else you can say`;
    return (
      <>
        <Text bold wrap={room === 'bare' ? 'truncate' : 'wrap'}>
          {safeLine(view.question.ask)}
        </Text>
        <Choices view={view} room={room} />
        {room === 'full' || view.confirms ? (
          <Text dimColor={!view.confirms} wrap={room === 'full' ? 'wrap' : 'truncate'}>
            {hint}
          </Text>
        ) : null}
      </>
    );
  }
  if (view.waiting) {
    const until = endsAt(view.waiting.since, view.waiting.minutes);
    return (
      <Text>
        <Text bold>Waiting until {until}:</Text> {safeLine(view.waiting.for)}
        {view.confirms
          ? ` ${safeLine(view.confirms)}`
          : view.waiting.fixed
            ? ''
            : ' (ready: if you have looked already)'}
      </Text>
    );
  }
  return view.held.length > 0 ? <Text>The batch is held. pause leaves it safe in the log.</Text> : null;
}

/** The line being typed, with a cursor that shows without colour too. */
function Typed({ line }: { line: Line }) {
  const before = line.graphemes.slice(0, line.cursor).join('');
  const at = line.graphemes[line.cursor] ?? ' ';
  return (
    <Text wrap="truncate-start">
      <Text bold>{'> '}</Text>
      {safeLine(before)}
      <Text inverse>{safeLine(at)}</Text>
      {safeLine(line.graphemes.slice(line.cursor + 1).join(''))}
    </Text>
  );
}

/** The live part: a few lines, always fewer than the window has. */
export function Prompt({ view, line, rows, columns, endsAt, problem }: Props) {
  const status = statusText(view);
  const room = roomFor(view, status, rows, columns);
  return (
    <Box flexDirection="column" marginTop={1} width={columns}>
      {room === 'bare' ? null : (
        <Text dimColor wrap={room === 'full' ? 'wrap' : 'truncate'}>
          {status}
        </Text>
      )}
      <Held view={view} />
      <Asked view={view} room={room} endsAt={endsAt} />
      {problem ? (
        <Text bold color="red" wrap="truncate">
          NOTICE: {safeLine(problem)}
        </Text>
      ) : null}
      <Typed line={line} />
    </Box>
  );
}
