import { Box, Text } from 'ink';
import { safeLine } from '../conversation/safe-text.ts';
import type { View } from '../conversation/view.ts';
import type { Line } from './line-editor.ts';

interface Props {
  view: View;
  line: Line;
  rows: number;
  columns: number;
  endsAt: (since: string, minutes: number) => string;
  problem: string | undefined;
}

/** Lines that the prompt needs beside its choices, with room for wrapped words. */
const otherLines = 9;

function Status({ view }: { view: View }) {
  const part = view.part ? `, ${view.part}` : '';
  return (
    <Text dimColor>
      Stage {view.step} of {view.steps}: {view.stage}
      {part}
      {'  '}answered {view.answered} of up to {view.asks}
      {'  '}batch {safeLine(view.batch)}
    </Text>
  );
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

function Choices({ view, rows }: { view: View; rows: number }) {
  const choices = view.question?.choices ?? [];
  if (choices.length === 0) return null;
  if (choices.length + otherLines < rows) {
    return (
      <Box flexDirection="column" paddingLeft={2}>
        {choices.map((choice) => (
          <Text key={choice.say}>
            <Text bold>{choice.key || '-'}</Text> {safeLine(choice.say)}
          </Text>
        ))}
      </Box>
    );
  }
  return <Text>{choices.map((choice) => `${choice.key || '-'} ${safeLine(choice.say)}`).join('  ')}</Text>;
}

function Asked({ view, rows, endsAt }: Pick<Props, 'view' | 'rows' | 'endsAt'>) {
  if (view.question) {
    return (
      <>
        <Text bold>{safeLine(view.question.ask)}</Text>
        <Choices view={view} rows={rows} />
        <Text dimColor>
          {view.confirms ? safeLine(view.confirms) : `${view.question.hint}; ? for what else you can say`}
        </Text>
      </>
    );
  }
  if (view.waiting) {
    const until = endsAt(view.waiting.since, view.waiting.minutes);
    return (
      <Text>
        <Text bold>Waiting until {until}:</Text> {safeLine(view.waiting.for)}
        {view.waiting.fixed ? '' : ' (ready: if you have looked already)'}
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
    <Text>
      <Text bold>{'> '}</Text>
      {safeLine(before)}
      <Text inverse>{safeLine(at)}</Text>
      {safeLine(line.graphemes.slice(line.cursor + 1).join(''))}
    </Text>
  );
}

/** The live part: a few lines, always fewer than the window has. */
export function Prompt({ view, line, rows, columns, endsAt, problem }: Props) {
  return (
    <Box flexDirection="column" marginTop={1} width={columns} overflow="hidden">
      <Status view={view} />
      <Held view={view} />
      <Asked view={view} rows={rows} endsAt={endsAt} />
      {problem ? (
        <Text bold color="red">
          NOTICE: {safeLine(problem)}
        </Text>
      ) : null}
      <Typed line={line} />
    </Box>
  );
}
