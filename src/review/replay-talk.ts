import type { Turn } from '../conversation/effects.ts';
import type { Talk } from '../conversation/talk.ts';
import { closest } from '../conversation/understanding/match-words.ts';
import { readRequest } from '../conversation/understanding/read-request.ts';
import { type View, viewOf } from '../conversation/view.ts';
import type { Book } from '../rulebook/book.ts';
import { Playback } from './playback.ts';
import type { Numbered } from './story.ts';

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

const help = [
  'Enter  the next thing that was said        back  the one before',
  'play, play 60  on by itself, so many times as fast as it was (Enter stops it)',
  'warning  on to the next stop or warning    stage NAME  on to a stage     14:35  on to a time of day',
  '120  to record 120, forward or back        start, end',
  'why, how, how sure, what is WORD, where am I: as at that moment',
  'leave  ends the replay. Nothing is written, whatever you type.',
].join('\n');

/** A logged batch on the same screen as a talk: to step through, to play, to ask about. Nothing is written. */
export class ReplayTalk implements Talk {
  over = false;
  private readonly book: Book;
  private readonly playback: Playback;
  private readonly outside: ReplayOutside;
  private stop: (() => void) | undefined;
  private speed = 60;

  constructor(book: Book, records: readonly Numbered[], outside: ReplayOutside) {
    this.book = book;
    this.playback = new Playback(book, records);
    this.outside = outside;
  }

  view(): View {
    const { playback } = this;
    const view = viewOf(this.book, playback.state.stage ? playback.state : this.atStart());
    const at = playback.records[Math.max(0, playback.position - 1)]?.event.at ?? '';
    const when = `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
    const heading = `Replay, record ${playback.position} of ${playback.records.length}, ${when}, ${view.stage}`;
    const hint = this.stop ? 'playing; Enter stops it' : 'Enter: the next thing; ? for what else you can say';
    const asked =
      view.question?.ask ?? (playback.isAtEnd ? 'The log ends here.' : 'Nothing was asked just then.');
    const { confirms: _confirms, waiting: _waiting, part: _part, ...rest } = view;
    const question = { id: 'replay', choices: view.question?.choices ?? [], hint, oneKey: false, ask: asked };
    return { ...rest, heading, question, ended: undefined, paused: false, busy: false };
  }

  private atStart() {
    return { ...this.playback.state, stage: this.book.stages[0]?.stage ?? '' };
  }

  async type(line: string): Promise<void> {
    const playing = this.stop !== undefined;
    this.halt();
    if (!(playing && line.trim() === '')) this.obey(line.trim());
    this.outside.changed();
  }

  private show(turns: readonly Turn[]): void {
    for (const turn of turns) this.outside.turn(turn);
  }

  private say(text: string): void {
    const at = this.playback.records[0]?.event.at ?? '';
    this.outside.turn({ kind: 'help', at, text });
  }

  private obey(text: string): void {
    const play = /^play(?:\s+(\d+))?$/i.exec(text);
    const stage = /^stage\s+(?<name>\S.*)$/i.exec(text)?.groups?.name;
    if (text === '' || /^next$/i.test(text)) this.show(this.playback.playOn());
    else if (/^(back|<)$/i.test(text)) this.goBack();
    else if (play) this.play(Number(play[1] ?? this.speed));
    else if (/^warnings?$/i.test(text))
      this.onTo((turns) => turns.some(({ signal }) => signal && signal !== 'NOTICE'));
    else if (/^start$/i.test(text)) this.goTo(0);
    else if (/^end$/i.test(text)) this.onTo(() => false);
    else if (/^\d{1,2}:\d\d$/.test(text)) this.toTime(text.padStart(5, '0'));
    else if (/^\d+$/.test(text)) this.goTo(Number(text));
    else if (stage) this.toStage(stage);
    else if (/^(leave|pause|p|stop|quit|exit)$/i.test(text)) this.over = true;
    else this.answer(text);
  }

  private goTo(position: number): void {
    this.playback.goTo(position);
    this.say(`At record ${this.playback.position} of ${this.playback.records.length}.`);
  }

  /** Back to before the last thing that was said, and that thing's forerunner shown again. */
  private goBack(): void {
    const { playback } = this;
    let position = playback.position - 1;
    for (let said = 0; position > 0; position -= 1) {
      playback.goTo(position - 1);
      said += playback.playOne().length > 0 ? 1 : 0;
      if (said > 0) break;
    }
    playback.goTo(Math.max(0, position - 1));
    this.show(playback.playOn());
  }

  private onTo(fits: Parameters<Playback['playUntil']>[0]): void {
    if (this.playback.isAtEnd) this.say('The log ends here.');
    this.show(this.playback.playUntil(fits));
  }

  private toTime(time: string): void {
    this.onTo((_turns, { records, position }) => {
      const next = records[position]?.event.at.slice(11, 16);
      return (
        next !== undefined && next >= time && (records[position - 1]?.event.at.slice(11, 16) ?? '') <= time
      );
    });
  }

  private toStage(name: string): void {
    const stages = this.book.stages.map(({ stage, title }) => ({
      id: stage,
      words: [stage.replaceAll('-', ' '), title],
    }));
    const wanted = closest(name, stages);
    if (wanted === undefined) {
      this.say(
        `There is no stage "${name}". The stages: ${this.book.stages.map(({ stage }) => stage).join(', ')}.`,
      );
      return;
    }
    const { path } = this.playback.state;
    this.onTo((_turns, { state }) => state.path.length > path.length && state.stage === wanted);
    if (this.playback.state.stage !== wanted) this.say('The batch did not come to that stage after this.');
  }

  private play(speed: number): void {
    this.speed = Math.max(1, Math.min(speed, fastest));
    this.playNext();
  }

  private playNext(): void {
    const { playback } = this;
    if (playback.isAtEnd) {
      this.stop = undefined;
      this.say('The log ends here.');
      return;
    }
    const before = playback.records[Math.max(0, playback.position - 1)]?.event.at ?? '';
    const next = playback.records[playback.position]?.event.at ?? before;
    const gap = Math.max(0, Date.parse(next) - Date.parse(before)) / this.speed;
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
    if (request?.type !== 'RequestMade') {
      this.say(`In a replay nothing is answered or changed. ${help}`);
      return;
    }
    this.show(this.playback.ask({ ...request, at: this.playback.state.openedAt }));
  }
}
