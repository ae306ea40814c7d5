import { createInterface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import { localEnd, promptLines, turnLines } from './lines.ts';

interface Streams {
  input: Readable;
  output: Writable;
}

/** The talk as lines of text: for pipes, screen readers and terminals that cannot do more. */
export class PlainTalk {
  private readonly output: Writable;
  private readonly input: Readable;

  constructor({ input, output }: Streams) {
    this.input = input;
    this.output = output;
  }

  turn(turn: Turn): void {
    this.print(turnLines(turn));
  }

  /** Lines that stand are not drawn anew. */
  changed(): void {}

  prompt(talk: Talk): void {
    this.print(promptLines(talk.view(), localEnd));
  }

  /** Reads lines until the talk is over or the input ends. */
  async run(talk: Talk): Promise<void> {
    this.prompt(talk);
    const lines = createInterface({ input: this.input, terminal: false });
    for await (const line of lines) {
      try {
        await talk.type(line);
      } catch (error) {
        this.print([`  ${(error as Error).message}`]);
      }
      if (talk.over) break;
      this.prompt(talk);
    }
    lines.close();
  }

  private print(lines: readonly string[]): void {
    if (lines.length > 0) this.output.write(`${lines.join('\n')}\n`);
  }
}
