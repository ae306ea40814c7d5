import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { onTestFinished } from 'vitest';

const { Terminal } = xterm;

export interface TerminalOptions {
  args?: string[];
  env?: Record<string, string>;
  columns?: number;
  rows?: number;
}

const program = new URL('../../dist/main.js', import.meta.url).pathname;

/** A real pseudo-terminal with the built program in it, and a screen that shows what a person would see. */
export class TestTerminal {
  private readonly pty: ReturnType<typeof spawn>;
  private readonly screen: InstanceType<typeof Terminal>;
  exitCode: number | undefined;
  signal: number | undefined;

  constructor({ args = [], env = {}, columns = 100, rows = 30 }: TerminalOptions = {}) {
    const inherited = { ...process.env, TERM: 'xterm-256color', ...env } as Record<string, string>;
    for (const name of ['CI', 'CONTINUOUS_INTEGRATION', 'NO_COLOR', 'FORCE_COLOR'])
      if (!(name in env)) delete inherited[name];
    this.pty = spawn(process.execPath, [program, ...args], { cols: columns, rows, env: inherited });
    this.screen = new Terminal({ cols: columns, rows, scrollback: 5000, allowProposedApi: true });
    this.pty.onData((data) => this.screen.write(data));
    this.pty.onExit(({ exitCode, signal }) => {
      this.exitCode = exitCode;
      this.signal = signal;
    });
  }

  type(text: string): void {
    this.pty.write(text);
  }

  resize(columns: number, rows: number): void {
    this.screen.resize(columns, rows);
    this.pty.resize(columns, rows);
  }

  kill(signal: string): void {
    this.pty.kill(signal);
  }

  /** Everything on the screen and in its scrollback. */
  text(): string {
    const { active } = this.screen.buffer;
    const lines = Array.from(
      { length: active.length },
      (_none, index) => active.getLine(index)?.translateToString(true) ?? '',
    );
    return lines.join('\n').replaceAll('\u00a0', ' ').trimEnd();
  }

  /** Waits until the screen shows something; fails with what it shows instead. */
  async sees(what: string | RegExp, withinMs = 25_000): Promise<string> {
    const until = Date.now() + withinMs;
    for (;;) {
      const text = this.text();
      if (typeof what === 'string' ? text.includes(what) : what.test(text)) return text;
      if (Date.now() > until) throw new Error(`never saw ${what}; the screen shows:\n${text}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  }

  async exits(withinMs = 25_000): Promise<number> {
    const until = Date.now() + withinMs;
    while (this.exitCode === undefined) {
      if (Date.now() > until) throw new Error(`still running; the screen shows:\n${this.text()}`);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    return this.exitCode;
  }

  end(): void {
    if (this.exitCode === undefined) this.pty.kill('SIGKILL');
  }
}

/** A terminal that ends with the test. */
export function openTerminal(options: TerminalOptions): TestTerminal {
  const terminal = new TestTerminal(options);
  onTestFinished(() => terminal.end());
  return terminal;
}
