import type { Turn } from '../conversation/effects.ts';
import type { EventBody, ReviewVerdict } from '../conversation/events.ts';
import type { Talk } from '../conversation/talk.ts';
import { closest } from '../conversation/understanding/match-words.ts';
import { readAnswer } from '../conversation/understanding/read-answer.ts';
import { shownChoices, type View } from '../conversation/view.ts';
import { answerInWords } from '../conversation/wording.ts';
import type { Book } from '../rulebook/book.ts';
import { citeSource, explainTrace } from '../rulebook/explain.ts';
import { doneWell, type Finding, findingsOf } from './findings.ts';
import { reviewQuestions, verdictWords } from './review-questions.ts';
import type { AnswerTold, Story } from './story.ts';

/** What a review needs from outside: somewhere to show, and the log to append to. */
export interface ReviewOutside {
  turn(turn: Turn): void;
  changed(): void;
  /** Appends to the log; throws when the disk does not take it, and then nothing has happened. */
  append(event: EventBody): void;
}

type Part = keyof typeof reviewQuestions;

/** Answers shown with a finding, and turns shown around it. */
const mostAnswers = 8;
const turnsAround = 6;

const help = [
  'comment 57: WORDS   a comment to record 57 (the numbers stand before the answers)',
  'comment: WORDS      a comment to the batch as a whole',
  'show STAGE          the answers of a stage      findings  the list again',
  'pause               leaves the review; what you wrote is kept, sign it another time',
].join('\n');

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
  private at = 0;
  private mentor = '';
  private verdict: ReviewVerdict = 'repeat-with-someone';
  private well = '';
  private change = '';

  constructor(book: Book, story: Story, program: string, outside: ReviewOutside) {
    this.book = book;
    this.story = story;
    this.program = program;
    this.outside = outside;
    this.findings = findingsOf(book, story);
    this.praises = doneWell(book, story);
    this.seen = new Set(
      story.reviews.flatMap(({ event }) => (event.type === 'CheckSeen' ? [event.check] : [])),
    );
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
        this.say('note', `Reviewed before by ${event.mentor}: ${verdictWords[event.verdict]}.`);
  }

  view(): View {
    const question = reviewQuestions[this.part];
    const finding = this.findings[this.at];
    const counted = this.part === 'finding' ? `, finding ${this.at + 1} of ${this.findings.length}` : '';
    const about = this.part === 'comment' && finding ? ` (about ${finding.check})` : '';
    return {
      batch: this.story.batch,
      stage: '',
      step: 1,
      steps: 1,
      answered: 0,
      asks: 0,
      held: [],
      heading: `Review${counted}`,
      question: {
        id: question.id,
        ask: question.ask + about,
        choices: shownChoices(question),
        hint: 'choice' in question.answer ? 'a number, or in your words' : 'a few words',
        oneKey: 'choice' in question.answer,
      },
      busy: false,
      ended: undefined,
      paused: false,
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
    const comment = /^comment(?:\s+(?:on\s+)?(?:record\s+)?(?<record>\d+))?\s*:\s*(?<words>\S.*)$/is.exec(
      text,
    )?.groups;
    const show = /^show\s+(?<stage>\S.*)$/i.exec(text)?.groups?.stage;
    if (comment?.words) this.comment(comment.words, comment.record ? { record: Number(comment.record) } : {});
    else if (/^(pause|p|leave|stop|quit|exit)$/i.test(text)) this.leave();
    else if (show && this.part !== 'comment') this.showStage(show);
    else if (/^findings$/i.test(text)) this.list();
    else if (text === '?') this.say('help', help);
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
    this.outside.append({
      type: 'ReviewOpened',
      mentor: mentor || 'a mentor',
      program,
      rules: this.book.hash,
    });
    this.hasBegun = true;
  }

  private answer(text: string): void {
    const question = reviewQuestions[this.part];
    const reading = readAnswer(question, text);
    if (!('sure' in reading)) {
      this.say('asks-back', 'says' in reading ? reading.says : reading.notUnderstood);
      return;
    }
    const { sure } = reading;
    if (sure.kind === 'not-sure' || sure.kind === 'skipped') {
      this.say('asks-back', 'Take your time; pause leaves the review and keeps what you wrote.');
      return;
    }
    this.say('answer', answerInWords(question, sure), { asked: question.ask });
    if (sure.kind === 'text') this.takeText(sure.text);
    else if (sure.kind === 'choice') this.takeChoice(sure.choice);
    else if (sure.kind === 'yes-no') this.takeSignature(sure.yes);
  }

  private takeText(text: string): void {
    const finding = this.findings[this.at];
    if (this.part === 'mentor') {
      this.mentor = text;
      this.list();
      this.toFinding(0);
    } else if (this.part === 'comment') {
      this.comment(text, finding ? { check: finding.check } : {});
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
    const lines = this.findings.map(({ check, signal, fix, name }) => {
      const seen = this.seen.has(check) ? ', seen' : '';
      return `- ${check} ${signal}${fix ? ', to be put right' : ''}: ${name.replaceAll('-', ' ')}${seen}`;
    });
    this.say(
      'note',
      lines.length > 0 ? ['The checks found:', ...lines].join('\n') : 'The checks found nothing.',
    );
  }

  private toFinding(index: number): void {
    const finding = this.findings[index];
    this.at = index;
    this.part = finding ? 'finding' : 'verdict';
    if (!finding) return;
    const { check, signal, says, because, fix } = finding;
    const right = fix ? ' The numbers of this batch do not count before this is put right.' : '';
    this.say('advice', `${check}: ${says}${right}`, { signal, id: check, because });
    for (const line of finding.around.slice(-mostAnswers).map((told) => this.answerLine(told)))
      this.say('help', line);
  }

  private answerLine({ record, at, question, answer, stage, stands }: AnswerTold): string {
    const asked = this.book.questions[question];
    const words = asked ? answerInWords(asked, answer) : JSON.stringify(answer);
    const gone = stands ? '' : ' (no longer counts)';
    return `${record}  ${at.slice(11, 16)} ${stage}: ${asked?.short ?? asked?.ask ?? question} ${words}${gone}`;
  }

  private showAround(): void {
    const last = this.findings[this.at]?.around.at(-1)?.record ?? 0;
    const index = this.story.turns.findLastIndex(({ record }) => record <= last);
    const turns = this.story.turns.slice(Math.max(0, index - turnsAround), index + turnsAround);
    if (turns.length === 0) this.say('help', 'The log says nothing more around it.');
    for (const { record: _record, ...turn } of turns) this.outside.turn(turn);
  }

  private explain(): void {
    const finding = this.findings[this.at];
    if (!finding) return;
    const lines = finding.trace.map((trace) => `- ${explainTrace(this.book, trace, {})}`);
    this.say('help', [...lines, `Source: ${citeSource(this.book, finding.source)}`].join('\n'));
  }

  private showStage(name: string): void {
    const stages = this.book.stages.map(({ stage, title }) => ({
      id: stage,
      words: [stage.replaceAll('-', ' '), title],
    }));
    const stage = closest(name, stages);
    const told = this.story.answers.filter((one) => one.stage === stage);
    if (told.length === 0) this.say('asks-back', `There are no answers of a stage "${name}" in this log.`);
    else this.say('help', told.map((one) => this.answerLine(one)).join('\n'));
  }
}
