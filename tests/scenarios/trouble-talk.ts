import { findingAsked, troubleAsks } from '../../src/rulebook/trouble-questions.ts';
import { SmallTalk } from '../conversation/small-talk.ts';
import { book } from '../rulebook/cases.ts';

/** What a maker answers: by question or check, as typed. A list is answered in its order, its last one from then on. */
export type Answers = Readonly<Record<string, string | readonly string[]>>;

/** More lines than any of these talks needs; a talk that asks on and on fails by it. */
const mostLines = 60;

/** "Not sure" to every check. */
export const unsure: Answers = Object.fromEntries(
  book.diagnosis?.findings.map(({ id }) => [id, 'not sure']) ?? [],
);

/** A talk about a trouble on the real rules. Waits run out, a DANGER stop is cleared with a typed yes. */
export class TroubleTalk extends SmallTalk {
  /** Questions that were answered, in order; checks by their own name. */
  readonly asked: string[] = [];

  constructor() {
    super(book);
  }

  async openAlone(): Promise<this> {
    await this.session.dispatch({
      type: 'BatchOpened',
      batch: 'small',
      program: 'test',
      rules: book.hash,
      purpose: 'trouble',
    });
    return this;
  }

  get trouble() {
    return this.session.state.trouble;
  }

  get held(): string[] {
    return this.session.state.held.map(({ stop }) => stop);
  }

  /** The causes as the talk weighed them last, the likeliest first. */
  get causes(): string[] {
    return this.trouble?.outcome?.causes.map(({ id }) => id) ?? [];
  }

  /** Answers whatever is asked until a question has come that the answers leave out, or nothing is asked. */
  async answer(answers: Answers): Promise<this> {
    const times = new Map<string, number>();
    for (let line = 0; line < mostLines; line += 1) {
      const { asking, doubt, waiting } = this.session.state;
      if (asking === undefined) {
        if (!waiting) return this;
        await this.wait();
        continue;
      }
      if (doubt) {
        await this.say('yes');
        continue;
      }
      const name = findingAsked(asking) ?? asking;
      const given = answers[name];
      const nth = times.get(name) ?? 0;
      const text = typeof given === 'string' ? given : (given?.[nth] ?? given?.at(-1));
      if (text === undefined) return this;
      times.set(name, nth + 1);
      this.asked.push(name);
      await this.say(text);
    }
    throw new Error(`still asking ${this.asking} after ${mostLines} lines`);
  }

  /** As `answer`, and "not sure" to every check that the answers leave out: on to the verdict. */
  async toVerdict(answers: Answers): Promise<this> {
    await this.answer({ ...unsure, ...answers });
    if (this.asking !== troubleAsks.next) throw new Error(`no verdict: it asks ${this.asking}`);
    return this;
  }
}
