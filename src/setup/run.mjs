import { spawn } from 'node:child_process';
import { constants } from 'node:os';
import { SetupError } from './setup-error.mjs';

const SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'];

/**
 * Runs a program to its end and gives its exit code (128 + n when signal n ended it).
 * A signal that reaches us meanwhile is passed on; when the child is done we stop too, tidily.
 */
export async function run(command, args, options, onStart) {
  const child = spawn(command, args, options);
  const received = passSignalsTo(child);
  try {
    const code = await new Promise((resolve, reject) => {
      child.once('error', reject);
      child.once('spawn', () => onStart?.(child.pid));
      child.once('close', (status, signal) => resolve(signal ? signalCode(signal) : status));
    });
    if (received.signal) throw new SetupError('stopped; run it again to go on.', signalCode(received.signal));
    return code;
  } finally {
    received.stop();
  }
}

// At a terminal Ctrl-C reaches the child by itself; passed on as well it would count as pressed twice.
function passSignalsTo(child) {
  const received = { signal: undefined, stop: () => {} };
  const pass = (signal) => {
    received.signal = signal;
    if (signal !== 'SIGINT' || !process.stdin.isTTY) child.kill(signal);
  };
  for (const signal of SIGNALS) process.on(signal, pass);
  received.stop = () => {
    for (const signal of SIGNALS) process.off(signal, pass);
  };
  return received;
}

function signalCode(signal) {
  return 128 + constants.signals[signal];
}
