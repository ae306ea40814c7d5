import { createHash } from 'node:crypto';
import { mkdirSync, realpathSync, rmSync, statSync, utimesSync } from 'node:fs';
import { createServer } from 'node:net';

export interface Lock {
  release(): void;
}

const staleAfterMs = 30_000;
const heartbeatMs = 10_000;

/** An abstract socket: the kernel frees it however the process ends. Linux only. */
function socketLock(name: string): Promise<Lock | undefined> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(undefined));
    server.listen(`\0${name}`, () => {
      server.unref();
      resolve({ release: () => server.close() });
    });
  });
}

/** Elsewhere: a folder beside the journal, kept fresh while it is held and taken over when it has gone stale. */
function folderLock(folder: string): Lock | undefined {
  try {
    if (Date.now() - statSync(folder).mtimeMs > staleAfterMs)
      rmSync(folder, { recursive: true, force: true });
  } catch {
    // There is none, which is the usual case.
  }
  try {
    mkdirSync(folder);
  } catch {
    return undefined;
  }
  const beat = setInterval(() => utimesSync(folder, new Date(), new Date()), heartbeatMs);
  beat.unref();
  return {
    release: () => {
      clearInterval(beat);
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Takes the one writer's place at a journal; nothing comes back when somebody else has it. */
export async function lockJournal(
  file: string,
  platform: NodeJS.Platform = process.platform,
): Promise<Lock | undefined> {
  if (platform !== 'linux') return folderLock(`${file}.lock`);
  const name = createHash('sha256').update(realpathSync(file)).digest('hex').slice(0, 32);
  return socketLock(`batchside-${name}`);
}
