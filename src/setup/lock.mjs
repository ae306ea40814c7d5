// One set-up at a time: a directory, because making one either succeeds or fails, never half.
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, rmSync, statSync, utimesSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { SetupError, say } from './setup-error.mjs';

const POLL_MS = 200;
const BEAT_MS = 2000;
const PATIENCE_MS = 60_000;

/**
 * Does `work` while holding the lock directory `dir`; waits for whoever holds it now.
 * `work` is given `alsoWaitFor(pid)`: names a child that must be gone too before the lock counts as left behind.
 * A lock is left behind when its processes are gone, or when its heartbeat stood still for the whole of
 * `patienceMs` while we watched (we compare it with itself, so no clock has to be right).
 */
export async function withLock(dir, work, { pollMs = POLL_MS, patienceMs = PATIENCE_MS } = {}) {
  const owner = { pid: process.pid, host: hostname(), token: randomUUID() };
  mkdirSync(path.dirname(dir), { recursive: true });
  const watch = { seen: '', sinceMs: 0, told: false };
  while (!take(dir, owner)) {
    await waitOrTakeOver(dir, watch, pollMs, patienceMs);
  }
  const beat = setInterval(() => touch(dir), BEAT_MS);
  beat.unref();
  try {
    return await work((pid) => writeFileSync(path.join(dir, 'child'), String(pid)));
  } finally {
    clearInterval(beat);
    if (readOwner(dir)?.token === owner.token) remove(dir, owner.token);
  }
}

function take(dir, owner) {
  try {
    mkdirSync(dir);
  } catch (error) {
    if (error.code === 'EEXIST') return false;
    throw error;
  }
  writeFileSync(path.join(dir, 'owner'), JSON.stringify(owner));
  return true;
}

async function waitOrTakeOver(dir, watch, pollMs, patienceMs) {
  const owner = readOwner(dir);
  const seen = `${owner?.token} ${heartbeat(dir)}`;
  watch.sinceMs = seen === watch.seen ? watch.sinceMs + pollMs : 0;
  watch.seen = seen;
  const stoodStill = watch.sinceMs >= patienceMs;
  if (stoodStill || isGone(dir, owner)) {
    if (takeOver(dir, owner)) return;
    if (stoodStill) throw new SetupError(`an earlier set-up was cut off; delete ${dir} and run this again.`);
  }
  if (!watch.told) {
    watch.told = true;
    say(`another set-up is under way${owner ? ` (process ${owner.pid})` : ''}; waiting for it.`);
  }
  await sleep(pollMs);
}

// Two waiters may find the same dead lock. Only one can make `takeover` in it; that one looks again at whose
// lock it is, for by now it may be a living one, and moves it aside in one step before deleting it.
function takeOver(dir, owner) {
  const claim = path.join(dir, 'takeover');
  try {
    mkdirSync(claim);
  } catch {
    return false;
  }
  if (readOwner(dir)?.token !== owner?.token) {
    rmSync(claim, { recursive: true, force: true });
    return false;
  }
  remove(dir, randomUUID());
  return true;
}

function remove(dir, token) {
  const aside = `${dir}.${token}`;
  try {
    renameSync(dir, aside);
  } catch (error) {
    if (error.code !== 'ENOENT') throw error;
  }
  rmSync(aside, { recursive: true, force: true });
}

function isGone(dir, owner) {
  if (owner === undefined || owner.host !== hostname()) return false;
  const child = Number(readText(path.join(dir, 'child')) ?? 0);
  return !isAlive(owner.pid) && !(child > 0 && isAlive(child));
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === 'EPERM';
  }
}

function readOwner(dir) {
  try {
    return JSON.parse(readText(path.join(dir, 'owner')) ?? '');
  } catch {
    return undefined;
  }
}

function readText(file) {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}

function heartbeat(dir) {
  try {
    return statSync(path.join(dir, 'owner')).mtimeMs;
  } catch {
    return 0;
  }
}

function touch(dir) {
  try {
    const now = new Date();
    utimesSync(path.join(dir, 'owner'), now, now);
  } catch {
    // The lock was taken from us; the work goes on and the other one redoes it.
  }
}
