import { spawnSync } from 'node:child_process';

const program = new URL('../../dist/main.js', import.meta.url).pathname;

/** Runs the built program as a shell would. */
export function runProgram(args: string[], input = ''): { code: number | null; out: string; error: string } {
  const run = spawnSync(process.execPath, [program, ...args], { input, encoding: 'utf8' });
  return { code: run.status, out: run.stdout.replaceAll('\u00a0', ' '), error: run.stderr };
}
