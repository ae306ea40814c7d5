import { expect } from 'vitest';
import { FixedClock } from '../../src/commands/clock.ts';
import { Session } from '../../src/commands/session.ts';
import type { Turn } from '../../src/conversation/effects.ts';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { replay } from '../../src/conversation/replay.ts';
import { makeStep } from '../../src/conversation/step.ts';
import type { Book } from '../../src/rulebook/book.ts';
import { smallBook } from './small-book.ts';

/** A talk in memory: types lines, looks at what was said. */
export class SmallTalk {
  readonly turns: Turn[] = [];
  readonly events: TalkEvent[] = [];
  readonly clock = new FixedClock('2026-03-02T08:00:00Z');
  readonly session: Session;
  readonly book: Book;

  constructor(book: Book = smallBook) {
    this.book = book;
    const keeper = { append: (event: TalkEvent) => this.events.push(event) };
    const listener = { turn: (turn: Turn) => this.turns.push(turn), changed: () => undefined };
    this.session = new Session(book, keeper, this.clock, listener);
  }

  async open(): Promise<this> {
    await this.session.dispatch({
      type: 'BatchOpened',
      batch: 'small',
      program: 'test',
      rules: this.book.hash,
    });
    return this;
  }

  async say(...lines: string[]): Promise<this> {
    for (const line of lines) await this.session.type(line);
    return this;
  }

  /** Lets the present wait run out. */
  async wait(): Promise<this> {
    this.clock.pass(this.session.state.waiting?.minutes ?? 0);
    await this.session.endWait();
    return this;
  }

  get asking(): string | undefined {
    return this.session.state.asking;
  }

  said(kind: Turn['kind']): string[] {
    const turns = this.turns.filter((turn) => turn.kind === kind);
    return turns.map((turn) => turn.text.replaceAll('\u00a0', ' '));
  }

  expectReplayMatches(): void {
    const again = replay(makeStep(this.book), this.events);
    expect(again.state).toEqual(this.session.state);
    expect(again.turns).toEqual(this.turns);
  }
}
