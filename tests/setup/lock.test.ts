import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { hostname } from 'node:os';
import path from 'node:path';
import { afterEach, describe, expect, onTestFinished, test, vi } from 'vitest';
import { withLock } from '../../src/setup/lock.mjs';
import { put, smallTree } from './small-tree.ts';

const QUICK = { pollMs: 10, patienceMs: 150 };

afterEach(() => {
  vi.restoreAllMocks();
});

function heldBy(owner: { pid: number; host: string }, child?: number): { root: string; lock: string } {
  const root = smallTree();
  put(root, 'dist/.lock/owner', JSON.stringify({ ...owner, token: 'theirs' }));
  if (child !== undefined) put(root, 'dist/.lock/child', String(child));
  return { root, lock: path.join(root, 'dist/.lock') };
}

async function deadPid(): Promise<number> {
  const child = spawn(process.execPath, ['-e', ''], { stdio: 'ignore' });
  await new Promise((resolve) => child.once('close', resolve));
  return child.pid ?? 0;
}

function livingPid(): number {
  const child = spawn(process.execPath, ['-e', 'setTimeout(() => {}, 60000)'], { stdio: 'ignore' });
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  return child.pid ?? 0;
}

/** Takes the lock a number of times at once and counts how many ever held it together. */
async function race(lock: string, runners: number): Promise<{ most: number; done: number }> {
  let inside = 0;
  let most = 0;
  let done = 0;
  const work = async (): Promise<void> => {
    inside += 1;
    most = Math.max(most, inside);
    await new Promise((resolve) => setTimeout(resolve, 5));
    inside -= 1;
    done += 1;
  };
  await Promise.all(Array.from({ length: runners }, () => withLock(lock, work, QUICK)));
  return { most, done };
}

describe('one set-up at a time', () => {
  test('many at once take turns, and nothing is left behind', async () => {
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const lock = path.join(smallTree(), 'dist/.lock');
    expect(await race(lock, 6)).toEqual({ most: 1, done: 6 });
    expect(existsSync(lock)).toBe(false);
  });

  test('the lock is given back when the work fails, and the failure is passed on', async () => {
    const lock = path.join(smallTree(), 'dist/.lock');
    const fail = () => Promise.reject(new Error('no disk'));
    await expect(withLock(lock, fail, QUICK)).rejects.toThrow('no disk');
    expect(existsSync(lock)).toBe(false);
  });

  test('a lock whose process is gone is taken over, by one of many', async () => {
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const { lock } = heldBy({ pid: await deadPid(), host: hostname() });
    expect(await race(lock, 6)).toEqual({ most: 1, done: 6 });
  });

  test('a lock from another machine, or cut off before it named itself, is taken over when it stands still', async () => {
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const foreign = heldBy({ pid: process.pid, host: 'some-other-machine' });
    expect(await race(foreign.lock, 2)).toEqual({ most: 1, done: 2 });
    const nameless = smallTree({ 'dist/.lock/child': '' });
    expect(await race(path.join(nameless, 'dist/.lock'), 2)).toEqual({ most: 1, done: 2 });
  });

  test('a lock whose child still works is waited for, though its owner is gone', async () => {
    const said = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const { root, lock } = heldBy({ pid: await deadPid(), host: hostname() }, livingPid());
    let taken = false;
    const slow = { pollMs: 10, patienceMs: 60_000 };
    const waiting = withLock(
      lock,
      async () => {
        taken = true;
      },
      slow,
    );
    await new Promise((resolve) => setTimeout(resolve, 120));
    expect(taken).toBe(false);
    expect(said.mock.calls.join()).toContain('another set-up is under way');
    put(root, 'dist/.lock/child', String(await deadPid()));
    await waiting;
    expect(taken).toBe(true);
  });

  test('a lock that nobody can take over is named, not waited for without end', async () => {
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const { root, lock } = heldBy({ pid: await deadPid(), host: hostname() });
    put(root, 'dist/.lock/takeover/x', '');
    await expect(withLock(lock, async () => {}, QUICK)).rejects.toThrow(lock);
  });
});
