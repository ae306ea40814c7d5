import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import { readRequest } from '../conversation/understanding/read-request.ts';
import { stageNamed } from '../conversation/understanding/stage-named.ts';
import { type View, viewOf } from '../conversation/view.ts';
import type { Numbered } from '../journal/read.ts';
import type { Book } from '../rulebook/book.ts';
import { Playback } from './playback.ts';

/** What a replay needs from outside: somewhere to show, and time that passes. */
export interface ReplayOutside {
  turn(turn: Turn): void;
  changed(): void;
  /** Calls back after so many milliseconds; the result stops it. */
  after(milliseconds: number, then: () => void): () => void;
}

/** A pause in the log is not sat through: nothing is waited for longer than this. */
const longestGapMs = 4000;
const fastest = 10_000;
const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;

const help = [
  'Enter  the next thing that was said        back  the one before',
  'play, play 60  on by itself, so many times as fast as it was (Enter stops it)',
  'warning  on to the next stop or warning    stage NAME  on to a stage',
  '14:35  on to that time of day (UTC, as above)    120  to record 120, forward or back    start, end',
  'why, how, how sure, what is WORD, where am I: as at that moment',
  'leave  ends the replay. Nothing is written, whatever you type.',
].join('\n');

/** What would change the talk, which a replay never does. */
const changing = ['long-wording', 'short-wording'];

const isWarning = (turns: readonly Turn[]) => turns.some(({ signal }) => signal && signal !== 'NOTICE');

/** A logged batch on the same screen as a talk: to step through, to play, to ask about. Nothing is written. */
export class ReplayTalk implements Talk {
  over = false;
  private readonly book: Book;
  private readonly playback: Playback;
  private readonly outside: ReplayOutside;
  private stop: (() => void) | undefined;
  private speed = 60;

  constructor(book: Book, records: readonly Numbered[], outside: ReplayOutside) {
    this.playback = new Playback(book, records);
    this.book = this.playback.book;
    this.outside = outside;
  }

  view(): View {
    const { playback } = this;
    const view = viewOf(this.book, playback.state.stage ? playback.state : this.atStart());
    const { at } = playback;
    const when = `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
    const heading = `Replay, record ${playback.position} of ${playback.records.length}, ${when}, ${view.stage}`;
    const hint = this.stop ? 'playing; Enter stops it' : 'Enter: the next thing';
    const quiet = view.waiting ? `It was waited for: ${view.waiting.for}` : 'Nothing was asked just then.';
    const asked = view.question?.ask ?? (playback.isAtEnd ? this.ending : quiet);
    const { confirms: _confirms, waiting: _waiting, part: _part, ...rest } = view;
    const question = { id: 'replay', choices: view.question?.choices ?? [], hint, oneKey: false, ask: asked };
    return { ...rest, heading, question, ended: undefined, paused: this.over, busy: false };
  }

  private get ending(): string {
    const { stuck, position } = this.playback;
    return stuck === undefined
      ? 'The log ends here.'
      : `These rules cannot follow the log beyond record ${position}: ${stuck}`;
  }

  private atStart() {
    return { ...this.playback.state, stage: this.book.stages[0]?.stage ?? '' };
  }

  async type(line: string): Promise<void> {
    const playing = this.stop !== undefined;
    this.halt();
    if (!(playing && /^(stop)?$/i.test(line.trim()))) this.obey(line.trim());
    this.outside.changed();
  }

  private show(turns: readonly Turn[]): void {
    for (const turn of turns) this.outside.turn(turn);
  }

  private say(text: string): void {
    this.outside.turn({ kind: 'help', at: this.playback.at, text });
  }

  private obey(text: string): void {
    const play = /^play(?:\s+(\d+))?$/i.exec(text);
    const stage = /^stage\s+(?<name>\S.*)$/i.exec(text)?.groups?.name;
    if (text === '' || /^next$/i.test(text)) this.goOn();
    else if (/^(back|<)$/i.test(text)) this.goBack();
    else if (play) this.play(Number(play[1] ?? this.speed));
    else if (/^warnings?$/i.test(text)) this.onTo(isWarning, 'No further stop or warning comes.');
    else if (/^start$/i.test(text)) this.goTo(0);
    else if (/^end$/i.test(text)) this.toEnd();
    else if (/^\d{1,2}:\d\d$/.test(text)) this.toTime(text.padStart(5, '0'));
    else if (/^\d+$/.test(text)) this.goTo(Number(text));
    else if (stage) this.toStage(stage);
    else if (/^(leave|pause|p|stop|quit|exit)$/i.test(text)) this.over = true;
    else this.answer(text);
  }

  private goOn(): void {
    const turns = this.playback.playOn();
    if (turns.length > 0) this.show(turns);
    else this.say(this.ending);
    this.playback.settle();
  }

  /** Shows again what was said last before so many records. */
  private showLast(position: number): void {
    const { playback } = this;
    const last = playback.lastSpoken(position);
    if (last === undefined) return;
    playback.goTo(last);
    this.show(playback.playOne());
    playback.goTo(position);
  }

  private goTo(position: number): void {
    const { playback } = this;
    playback.goTo(position);
    this.say(`At record ${playback.position} of ${playback.records.length}.`);
    this.showLast(playback.position);
  }

  /** Back to what was said before the last thing that was said. */
  private goBack(): void {
    const { playback } = this;
    const shown = playback.lastSpoken(playback.position);
    const before = shown === undefined ? undefined : playback.lastSpoken(shown);
    playback.goTo(before === undefined ? 0 : before + 1);
    if (before === undefined) this.say('This is the beginning.');
    else this.showLast(playback.position);
    playback.settle();
  }

  /** On to where it fits; where nothing further on does, the replay stays where it is and says so. */
  private onTo(fits: Parameters<Playback['playUntil']>[0], otherwise: string): void {
    const { playback } = this;
    const from = playback.position;
    const { turns, reached } = playback.playUntil(fits);
    if (reached) {
      this.show(turns);
      playback.settle();
    } else {
      playback.goTo(from);
      this.say(playback.isAtEnd ? this.ending : otherwise);
    }
  }

  private toEnd(): void {
    if (this.playback.isAtEnd) this.say(this.ending);
    else this.show(this.playback.playUntil(() => false).turns);
  }

  /** On to the next time that clocks (UTC) show this, today or the day after. */
  private toTime(time: string): void {
    const now = Date.parse(this.playback.at);
    const today = Date.parse(`${this.playback.at.slice(0, 10)}T${time}:00Z`);
    if (Number.isNaN(today)) {
      this.say(`There is no time of day ${time}.`);
      return;
    }
    const wanted = today > now ? today : today + dayMs;
    this.onTo((_turns, { at }) => Date.parse(at) >= wanted, `The log does not go on to ${time}.`);
  }

  private toStage(name: string): void {
    const wanted = stageNamed(this.book, name);
    if (wanted === undefined) {
      this.say(
        `There is no stage "${name}". The stages: ${this.book.stages.map(({ stage }) => stage).join(', ')}.`,
      );
      return;
    }
    const { path } = this.playback.state;
    this.onTo(
      (_turns, { state }) => state.path.length > path.length && state.stage === wanted,
      'The batch does not come to that stage after this.',
    );
  }

  private play(speed: number): void {
    this.speed = Math.max(1, Math.min(speed, fastest));
    this.playNext();
  }

  private playNext(): void {
    const { playback } = this;
    if (playback.isAtEnd) {
      this.stop = undefined;
      this.say(this.ending);
      return;
    }
    const next = playback.records[playback.position]?.event.at ?? playback.at;
    const gap = Math.max(0, Date.parse(next) - Date.parse(playback.at)) / this.speed;
    this.stop = this.outside.after(Math.min(gap, longestGapMs), () => {
      this.show(playback.playOne());
      this.playNext();
      this.outside.changed();
    });
  }

  private halt(): void {
    this.stop?.();
    this.stop = undefined;
  }

  /** Requests are answered as they would have been at that moment; anything else changes nothing here. */
  private answer(text: string): void {
    if (text === '?' || /^help$/i.test(text)) {
      this.say(help);
      return;
    }
    const request = readRequest(text);
    if (request?.type !== 'RequestMade' || changing.includes(request.request)) {
      this.say(`In a replay nothing is answered or changed. ${help}`);
      return;
    }
    if (request.request === 'what-can-i-say') this.say(help);
    else if (this.playback.position === 0) this.say('The batch has not begun here; Enter goes on.');
    else this.show(this.playback.ask({ ...request, ...this.waited(request.request), at: this.playback.at }));
  }

  /** How long had been waited at this moment, which an answer about timers needs. */
  private waited(request: string): { about?: string } {
    const { state, at } = this.playback;
    if (request !== 'timers' || !state.waiting) return {};
    const minutes = (Date.parse(at) - Date.parse(state.waiting.since)) / minuteMs;
    return { about: String(Math.floor(Math.max(0, minutes))) };
  }
}
