import { Box, useStdout } from 'ink';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import type { View } from '../conversation/view.ts';
import type { Key } from './keys.ts';
import { edit, emptyLine, type Line, textOf } from './line-editor.ts';
import { Prompt } from './Prompt.tsx';
import { Transcript } from './Transcript.tsx';
import { useKeys } from './use-keys.ts';

interface Props {
  talk: Talk;
  /** Finished turns; a new array whenever one is added. */
  turns: Turn[];
  endsAt: (since: string, minutes: number) => string;
  suspend: () => void;
  leave: () => void;
}

/** A held key, or one pressed for the question before, must not answer the one that just came up. */
const settleMs = 250;

function isOneKeyAnswer(view: View, keys: Key[], line: Line, shownForMs: number): boolean {
  const [only] = keys;
  if (keys.length !== 1 || only?.key !== 'text' || line.graphemes.length > 0) return false;
  if (view.confirms || shownForMs < settleMs || !view.question?.oneKey) return false;
  return view.question.choices.some((choice) => choice.key === only.text);
}

export function App({ talk, turns, endsAt, suspend, leave }: Props) {
  const [line, setLine] = useState<Line>(emptyLine);
  const [problem, setProblem] = useState<string | undefined>(undefined);
  const { stdout } = useStdout();
  const view = talk.view();
  const typing = useRef(line);
  const since = useRef({ question: view.question?.id, turns: turns.length, at: performance.now() });

  useEffect(() => {
    since.current = { question: view.question?.id, turns: turns.length, at: performance.now() };
  }, [view.question?.id, turns.length]);

  const put = useCallback((next: Line) => {
    typing.current = next;
    setLine(next);
  }, []);

  const send = useCallback(
    (text: string) => {
      setProblem(undefined);
      talk.type(text).catch((error: Error) => setProblem(error.message));
    },
    [talk],
  );

  const press = useCallback(
    (key: Key) => {
      if (key.key === 'interrupt' || key.key === 'end-of-input') leave();
      else if (key.key === 'suspend') suspend();
      else if (key.key === 'enter') {
        const text = textOf(typing.current);
        put(emptyLine);
        send(text);
      } else put(edit(typing.current, key));
    },
    [leave, suspend, put, send],
  );

  useKeys(
    useCallback(
      (keys: Key[]) => {
        const now = talk.view();
        if (isOneKeyAnswer(now, keys, typing.current, performance.now() - since.current.at)) {
          const [only] = keys;
          if (only?.key === 'text') send(only.text);
          return;
        }
        for (const key of keys) press(key);
      },
      [talk, press, send],
    ),
  );

  return (
    <Box flexDirection="column">
      <Transcript turns={turns} />
      {view.ended || view.paused ? null : (
        <Prompt
          view={view}
          line={line}
          rows={stdout.rows ?? 24}
          columns={stdout.columns ?? 80}
          endsAt={endsAt}
          problem={problem}
        />
      )}
    </Box>
  );
}
