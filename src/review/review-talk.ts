import type { Turn } from '../conversation/effects.ts';
import type { Answer, EventBody, ReviewVerdict } from '../conversation/events.ts';
import { safeLine } from '../conversation/safe-text.ts';
import type { Talk } from '../conversation/talk.ts';
import { readAnswer } from '../conversation/understanding/read-answer.ts';
import { shownChoices, type View } from '../conversation/view.ts';
import { answerInWords } from '../conversation/wording.ts';
import type { Book } from '../rulebook/book.ts';
import { answerLine, answersOf, linesAround, listOf, turnsAround, whyItFired } from './finding-lines.ts';
import { doneWell, type Finding, findingsOf } from './findings.ts';
import { asidesInWords, isNameOfStage, readAside } from './review-asides.ts';
import { noStage, reviewQuestions, verdictWords } from './review-questions.ts';
import type { Story } from './story.ts';

/** What a review needs from outside: somewhere to show, and the log to append to. */
export interface ReviewOutside {
  turn(turn: Turn): void;
  changed(): void;
  /** Appends to the log; throws when the disk does not take it, and then nothing has happened. */
  append(event: EventBody): void;
}

type Part = keyof typeof reviewQuestions;

/** Which question comes before; the verdict follows the last finding. */
const before: Partial<Record<Part, Part>> = {
  comment: 'finding',
  well: 'verdict',
  change: 'well',
  sign: 'change',
};

/** A mentor walks through what the checks found, comments, and signs. Everything is appended to the log. */
export class ReviewTalk implements Talk {
  over = false;
  private readonly book: Book;
  private readonly story: Story;
  private readonly outside: ReviewOutside;
  private readonly program: string;
  private readonly findings: Finding[];
  private readonly praises: string[];
  private readonly seen: Set<string>;
  private part: Part = 'mentor';
  /** What a yes would mean now. */
  private doubted: { says: string; meant: Answer } | undefined;
  private at = 0;
  private mentor = '';
  private verdict: ReviewVerdict = 'repeat-with-someone';
  private well = '';
  private change = '';

  constructor(book: Book, story: Story, program: string, outside: ReviewOutside) {
    // The ids in the log may be older than the rules.
    this.book = story.book;
    this.story = story;
    this.program = program;
    this.outside = outside;
    this.findings = findingsOf(book, story);
    this.praises = doneWell(book, story);
    this.seen = new Set(
      this.underWay().flatMap((event) => (event.type === 'CheckSeen' ? [event.check] : [])),
    );
  }

  /** What was written since the last signature: a review that was left and is taken up again. */
  private underWay(): Story['reviews'][number]['event'][] {
    const events = this.story.reviews.map(({ event }) => event);
    return events.slice(events.findLastIndex(({ type }) => type === 'ReviewSigned') + 1);
  }

  /** What is said before the first question. */
  begin(): void {
    const { story, findings } = this;
    const ended = story.state.ended ?? 'not ended';
    const counts = `${findings.length} ${findings.length === 1 ? 'finding' : 'findings'}`;
    this.say('stage', `Review of batch ${story.batch}`);
    this.say('note', `Opened ${story.opened.slice(0, 10)}, ${ended}, ${story.records} records, ${counts}.`);
    for (const { event } of story.reviews)
      if (event.type === 'ReviewSigned')
        this.say('note', `Reviewed before by ${safeLine(event.mentor)}: ${verdictWords[event.verdict]}.`);
    const comments = this.underWay().filter(({ type }) => type === 'CommentMade').length;
    if (comments > 0)
      this.say('note', `Taken up again: ${comments} ${comments === 1 ? 'comment' : 'comments'}, unsigned.`);
  }

  view(): View {
    const question = reviewQuestions[this.part];
    const finding = this.findings[this.at];
    const counted = this.part === 'finding' ? `, finding ${this.at + 1} of ${this.findings.length}` : '';
    const about = this.part === 'comment' && finding ? ` (about ${finding.check})` : '';
    return {
      ...noStage,
      ended: undefined,
      // Nothing is asked any more on what stays on the screen.
      paused: this.over,
      batch: this.story.batch,
      heading: `Review${counted}`,
      question: {
        id: question.id,
        ask: question.ask + about,
        choices: shownChoices(question),
        hint: 'text' in question.answer ? 'a few words' : 'a number, or in your words',
        oneKey: !('text' in question.answer),
      },
      ...(this.doubted ? { confirms: this.doubted.says } : {}),
    };
  }

  async type(line: string): Promise<void> {
    const text = line.trim();
    if (text !== '' && !this.takeAside(text)) this.answer(text);
    this.outside.changed();
  }

  private say(kind: Turn['kind'], text: string, more: Partial<Turn> = {}): void {
    this.outside.turn({ kind, text, at: this.story.last, ...more });
  }

  /** What a mentor may say at any question. */
  private takeAside(text: string): boolean {
    const aside = readAside(text);
    if (!aside) return false;
    const isAskedForWords = 'text' in reviewQuestions[this.part].answer;
    if (aside.say === 'show' && isAskedForWords && !isNameOfStage(this.book, aside.stage)) return false;
    if (aside.say === 'back') return this.goBack();
    if (aside.say === 'comment') {
      if (this.mentor === '') this.say('asks-back', 'Say first who reviews.');
      else this.comment(aside.words, aside.about);
    } else if (aside.say === 'leave') this.leave();
    else if (aside.say === 'show') this.showStage(aside.stage);
    else if (aside.say === 'findings') this.list();
    else this.say('help', asidesInWords);
    return true;
  }

  /** One question back; what is in the log stays there. A finding has its own way back among its choices. */
  private goBack(): boolean {
    const part = before[this.part];
    const last = this.findings.length - 1;
    this.doubted = undefined;
    if (part) this.part = part;
    else if (this.part === 'verdict' && last >= 0) this.toFinding(last);
    else return false;
    return true;
  }

  private leave(): void {
    this.over = true;
    this.say('session', 'The review is left unsigned; comments and what you marked as seen are kept.');
  }

  private comment(text: string, about: { record?: number; check?: string }): void {
    if (about.record !== undefined && (about.record < 1 || about.record > this.story.records)) {
      this.say('asks-back', `The log has records 1 to ${this.story.records}.`);
      return;
    }
    this.begun();
    this.outside.append({ type: 'CommentMade', text, ...about });
    this.say('note', `Comment kept${about.record ? ` at record ${about.record}` : ''}: ${text}`);
  }

  private hasBegun = false;

  /** The review is opened in the log with the first thing that is kept of it. */
  private begun(): void {
    if (this.hasBegun) return;
    const { mentor, program } = this;
    this.outside.append({ type: 'ReviewOpened', mentor, program, rules: this.book.hash });
    this.hasBegun = true;
  }

  private answer(text: string): void {
    const question = reviewQuestions[this.part];
    const { doubted } = this;
    this.doubted = undefined;
    if (doubted && /^(y|yes|ok)$/i.test(text)) {
      this.take(doubted.meant);
      return;
    }
    // A question to the learner is a comment too, so words are taken as they are.
    const spoken = 'text' in question.answer && /[\p{L}\p{N}]/u.test(text);
    const reading = spoken ? { sure: { kind: 'text' as const, text } } : readAnswer(question, text);
    if ('sure' in reading) this.take(reading.sure);
    else if ('says' in reading) {
      this.doubted = reading;
      this.say('asks-back', reading.says);
    } else this.say('asks-back', reading.notUnderstood);
  }

  private take(answer: Answer): void {
    const question = reviewQuestions[this.part];
    if (answer.kind === 'not-sure' || answer.kind === 'skipped') {
      this.say('asks-back', 'Take your time; pause leaves the review and keeps what you wrote.');
      return;
    }
    this.say('answer', answerInWords(question, answer), { asked: question.ask });
    if (answer.kind === 'text') this.takeText(answer.text);
    else if (answer.kind === 'choice') this.takeChoice(answer.choice);
    else if (answer.kind === 'yes-no') this.takeSignature(answer.yes);
  }

  private takeText(text: string): void {
    const finding = this.findings[this.at];
    if (this.part === 'mentor') {
      this.mentor = text;
      this.list();
      const open = this.findings.findIndex(({ check }) => !this.seen.has(check));
      this.toFinding(open < 0 ? this.findings.length : open);
    } else if (this.part === 'comment') {
      this.comment(text, finding ? { check: finding.check } : {});
      // Kept from here on: if the disk fails now, the comment is not asked for once more.
      this.part = 'finding';
      this.markSeen();
    } else if (this.part === 'well') {
      this.well = text;
      this.part = 'change';
    } else {
      this.change = text;
      this.part = 'sign';
      this.say('note', this.summary());
    }
  }

  private summary(): string {
    const verdict = verdictWords[this.verdict];
    return `Batch ${this.story.batch}: ${verdict}.\n- Done well: ${this.well}\n- To change: ${this.change}`;
  }

  private takeChoice(choice: string): void {
    if (this.part === 'verdict') {
      this.verdict = choice as ReviewVerdict;
      for (const praise of this.praises.slice(0, 3))
        this.say('help', `In order, as far as the log shows: ${praise}`);
      this.part = 'well';
      return;
    }
    if (choice === 'seen') this.markSeen();
    else if (choice === 'comment') this.part = 'comment';
    else if (choice === 'around') this.showAround();
    else if (choice === 'why') this.explain();
    else if (choice === 'back') this.toFinding(Math.max(0, this.at - 1));
    else this.part = 'verdict';
  }

  private markSeen(): void {
    const finding = this.findings[this.at];
    if (finding && !this.seen.has(finding.check)) {
      this.begun();
      this.outside.append({ type: 'CheckSeen', check: finding.check });
      this.seen.add(finding.check);
    }
    this.toFinding(this.at + 1);
  }

  private takeSignature(yes: boolean): void {
    if (!yes) {
      this.part = 'verdict';
      return;
    }
    const { mentor, verdict, well, change } = this;
    this.begun();
    const found = this.findings.map(({ check }) => check);
    this.outside.append({ type: 'ReviewSigned', mentor, verdict, well, change, found });
    this.say('end', 'Signed. It stands in the log, and the learner sees it at the next start.');
    this.over = true;
  }

  private list(): void {
    this.say('note', listOf(this.findings, this.seen));
  }

  private toFinding(index: number): void {
    const finding = this.findings[index];
    this.at = index;
    this.part = finding ? 'finding' : 'verdict';
    if (!finding) return;
    const { check, signal, says, because, fix } = finding;
    const right = fix ? ' The numbers of this batch do not count before this is put right.' : '';
    this.say('advice', `${check}: ${says}${right}`, { signal, id: check, because });
    for (const line of linesAround(this.book, finding)) this.say('help', line);
  }

  private showAround(): void {
    const turns = turnsAround(this.story, this.findings[this.at]);
    if (turns.length === 0) this.say('help', 'The log says nothing more around it.');
    for (const turn of turns) this.outside.turn(turn);
  }

  private explain(): void {
    const finding = this.findings[this.at];
    if (finding) this.say('help', whyItFired(this.book, this.story, finding));
  }

  private showStage(name: string): void {
    const told = answersOf(this.book, this.story, name);
    if (told.length === 0) this.say('asks-back', `There are no answers of a stage "${name}" in this log.`);
    else this.say('help', told.map((one) => answerLine(this.book, one)).join('\n'));
  }
}
