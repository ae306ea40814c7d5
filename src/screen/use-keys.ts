import { useStdin } from 'ink';
import { useEffect, useRef } from 'react';
import { type Key, KeyReader } from './keys.ts';

/**
 * Calls back with every key pressed while mounted. It listens to the raw pieces that Ink hands on, because Ink's
 * own hook loses an Enter that arrives in the same piece as text.
 */
export function useKeys(onKeys: (keys: Key[]) => void): void {
  const { setRawMode, internal_eventEmitter: emitter } = useStdin();
  const latest = useRef(onKeys);
  useEffect(() => {
    latest.current = onKeys;
  }, [onKeys]);
  useEffect(() => {
    const reader = new KeyReader();
    const hear = (chunk: string) => {
      const keys = reader.read(chunk);
      if (keys.length > 0) latest.current(keys);
    };
    setRawMode(true);
    emitter.on('input', hear);
    return () => {
      emitter.off('input', hear);
      setRawMode(false);
    };
  }, [setRawMode, emitter]);
}
