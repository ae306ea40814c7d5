import { turnLines } from '../plain/lines.ts';
import { Playback } from '../review/playback.ts';
import { type ReplayOutside, ReplayTalk } from '../review/replay-talk.ts';
import { hasScreen, openFace } from './faces.ts';
import { openBook } from './open-book.ts';
import { readLog } from './read-log.ts';
import { UsageError } from './usage-error.ts';

export interface ReplayOptions {
  log: string | undefined;
  plain: boolean;
  rules?: string;
}

const usage = 'Say which: batchside replay LOG';

function after(milliseconds: number, then: () => void): () => void {
  const timer = setTimeout(then, milliseconds);
  return () => clearTimeout(timer);
}

/** `batchside replay`: a logged batch on the same screen; with `--plain`, or into a pipe, all of it as text. */
export async function replay(options: ReplayOptions): Promise<number> {
  const { records } = readLog(options.log, usage);
  const book = await openBook(options.rules);
  if (options.plain || !hasScreen()) {
    const playback = new Playback(book, records);
    while (!playback.isAtEnd) {
      const lines = playback.playOn().flatMap(turnLines);
      if (lines.length > 0) process.stdout.write(`${lines.join('\n')}\n`);
    }
    if (playback.stuck === undefined) return 0;
    throw new UsageError(
      `These rules cannot follow the log beyond record ${playback.position}: ${playback.stuck}`,
    );
  }
  const face = await openFace(false);
  const outside: ReplayOutside = { turn: (turn) => face.turn(turn), changed: () => face.changed(), after };
  await face.run(new ReplayTalk(book, records, outside), []);
  return 0;
}
