import { type Instance, render } from 'ink';
import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import { localEnd, turnLines } from '../plain/lines.ts';
import { wrap } from '../plain/wrap.ts';
import { App } from './App.tsx';
import { markPastes } from './keys.ts';

/** Earlier turns printed when a batch is taken up again; the log has the rest. */
const lookBack = 40;
const framesPerSecond = 60;

/** The talk on an Ink screen. It shows the state and passes on what is typed; it decides nothing. */
export class ScreenTalk {
  private turns: Turn[] = [];
  private talk: Talk | undefined;
  private ink: Instance | undefined;

  turn(turn: Turn): void {
    // A new array each time: Static draws only what is new in it.
    this.turns = [...this.turns, turn];
  }

  changed(): void {
    if (!this.talk || !this.ink) return;
    this.ink.rerender(this.element(this.talk));
    if (this.talk.over) this.ink.unmount();
  }

  async run(talk: Talk, earlier: readonly Turn[]): Promise<void> {
    this.talk = talk;
    // Old turns go out in one write: through Static, thousands of them would take seconds.
    const columns = process.stdout.columns ?? 80;
    const old = earlier
      .slice(-lookBack)
      .flatMap(turnLines)
      .flatMap((line) => wrap(line, columns));
    if (old.length > 0) process.stdout.write(`${old.join('\n')}\n`);
    process.stdout.write(markPastes.on);
    this.ink = this.mount(talk);
    process.stdout.on('resize', this.redraw);
    try {
      await this.ink.waitUntilExit();
    } finally {
      process.stdout.off('resize', this.redraw);
      process.stdout.write(markPastes.off);
    }
  }

  private readonly redraw = (): void => this.changed();

  private mount(talk: Talk): Instance {
    return render(this.element(talk), { exitOnCtrlC: false, maxFps: framesPerSecond, patchConsole: false });
  }

  private element(talk: Talk) {
    return (
      <App
        talk={talk}
        turns={this.turns}
        endsAt={localEnd}
        suspend={() => this.suspend(talk)}
        leave={() => this.leave(talk)}
      />
    );
  }

  private leave(talk: Talk): void {
    talk.type('pause').catch(() => this.ink?.unmount());
  }

  /** Ctrl-Z does nothing by itself in raw mode: give the terminal back, stop, and draw again on return. */
  private suspend(talk: Talk): void {
    if (process.platform === 'win32') return;
    process.stdin.setRawMode(false);
    process.stdout.write(markPastes.off);
    process.once('SIGCONT', () => {
      process.stdin.setRawMode(true);
      process.stdout.write(markPastes.on);
      this.ink?.rerender(this.element(talk));
    });
    process.kill(process.pid, 'SIGTSTP');
  }
}
