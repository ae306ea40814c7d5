import { Box, Static, Text } from 'ink';
import { memo } from 'react';
import type { Turn } from '../conversation/effects.ts';
import { safeLine, safeText } from '../conversation/safe-text.ts';
import type { Signal } from '../rulebook/signals.ts';

/** Colour only repeats what the signal word says. */
const colours: Record<Signal, string> = {
  DANGER: 'red',
  WARNING: 'yellow',
  CAUTION: 'yellow',
  NOTICE: 'cyan',
};

function Why({ turn, opening }: { turn: Turn; opening: string }) {
  return turn.because ? (
    <Text dimColor>
      {opening}
      {safeText(turn.because)}
    </Text>
  ) : null;
}

function Stop({ turn }: { turn: Turn }) {
  return (
    <Box flexDirection="column" marginTop={1} paddingLeft={2}>
      <Text bold color={colours[turn.signal ?? 'DANGER']}>
        STOP {turn.id} {turn.signal}
      </Text>
      <Text bold>{safeText(turn.text)}</Text>
      <Why turn={turn} opening="Why: " />
    </Box>
  );
}

function Said({ turn }: { turn: Turn }) {
  const word = turn.signal ? (
    <Text bold color={colours[turn.signal]}>
      {turn.signal}:{' '}
    </Text>
  ) : null;
  return (
    <Box flexDirection="column" paddingLeft={2}>
      <Text>
        {word}
        {safeText(turn.text)}
      </Text>
      <Why turn={turn} opening="Why: " />
    </Box>
  );
}

export function TurnView({ turn }: { turn: Turn }) {
  switch (turn.kind) {
    case 'stage':
      return (
        <Box flexDirection="column" marginTop={1}>
          <Text bold underline>
            {safeLine(turn.text)}
          </Text>
          <Why turn={turn} opening="" />
        </Box>
      );
    case 'answer':
      return (
        <Box flexDirection="column" paddingLeft={2}>
          <Text dimColor>{safeLine(turn.asked ?? '')}</Text>
          <Text>
            {'→ '}
            {safeLine(turn.text)}
          </Text>
        </Box>
      );
    case 'stop':
      return <Stop turn={turn} />;
    case 'cleared':
      return (
        <Box paddingLeft={2}>
          <Text bold>
            STOP {turn.id} CLEARED. {safeText(turn.text)}
          </Text>
        </Box>
      );
    default:
      return <Said turn={turn} />;
  }
}

/** Finished turns. Memoised: any re-render of Static writes past the frame limit. */
export const Transcript = memo(function Transcript({ turns }: { turns: Turn[] }) {
  return <Static items={turns}>{(turn, index) => <TurnView key={index} turn={turn} />}</Static>;
});
