import { isOfReview } from '../conversation/events.ts';
import { type Ends, endedAt, type LastOutcome } from './batch-end.ts';
import { type BatchRow, type Measure, measured } from './batch-row.ts';
import { loose, numberIn, textIn, textsIn } from './loose.ts';

/** Figures of the rules that a measure is taken from; a later figure counts before an earlier one. */
const figures = new Map<string, Measure>([
  ['titrant-koh-equivalent', 'titration'],
  ['soap-crude', 'rawSoap'],
  ['soap-final', 'soap'],
  ['soap-finished', 'soap'],
  ['yield', 'yield'],
]);

const keptAnswers = ['maker', 'experience', 'decision-taken'];

/** What going back undoes; never changed, only replaced. */
interface Stand {
  stage: string;
  /** Record that the visit of the stage began with: tells it from every other visit. */
  visit: number;
  values: BatchRow['values'];
  said: Readonly<Record<string, string>>;
  held: readonly string[];
  cleared: readonly string[];
}

interface Past {
  question: string;
  visit: number;
  before: Stand;
}

type Event = Readonly<Record<string, unknown>> & { type: string };

const nothing: Stand = { stage: '', visit: 0, values: {}, said: {}, held: [], cleared: [] };
const hourMs = 3_600_000;

/**
 * Takes in the records of one journal, in order, and says what came of the batch. It folds no talk: that is what makes
 * thousands of journals countable. Where the talk would go back, it goes back to what was known then.
 */
export class RowBuilder {
  private readonly ends: Ends;
  private readonly counts = { records: 0, waitsCutShort: 0, notSure: 0, changes: 0, troubles: 0 };
  private readonly opening = { batch: '', opened: '', trouble: false };
  private readonly stops = new Set<string>();
  private readonly times = new Map<string, { hours: number; visits: number }>();
  private last = '';
  private verdict: string | undefined;
  private givenUp = false;
  private stand = nothing;
  private past: Past[] = [];
  private withdrawn = 0;
  private outcome: LastOutcome = { true: [], deciding: [] };
  private evaluatedAt = '';
  private answeredSince = false;
  private changing = false;
  /** The stops that the last report set off; whether its taking back was asked about; whether it is not judged yet. */
  private report: { stops: readonly string[]; doubted: boolean; fresh: boolean } = {
    stops: [],
    doubted: false,
    fresh: false,
  };
  private clock = { stage: '', since: '' };

  constructor(ends: Ends) {
    this.ends = ends;
  }

  take(at: string, event: Event): void {
    this.counts.records += 1;
    // A review comes later and is no part of how long the batch took.
    if (!isOfReview(event)) this.last = at;
    switch (event.type) {
      case 'RulesEvaluated':
        this.evaluated(at, event);
        return;
      case 'AnswerGiven':
      case 'AnswerChanged':
        this.answered(event);
        return;
      case 'BatchOpened':
        Object.assign(this.opening, {
          batch: textIn(event.batch) ?? '',
          opened: at,
          trouble: event.purpose === 'trouble',
        });
        this.begin(at);
        return;
      default:
        this.noted(event);
    }
  }

  private begin(at: string): void {
    const { first } = this.ends;
    this.stand = { ...nothing, stage: first, visit: this.counts.records };
    this.times.set(first, { hours: 0, visits: 1 });
    this.clock = { stage: first, since: at };
    this.evaluatedAt = at;
  }

  private noted(event: Event): void {
    if (event.type === 'AnswerWithdrawn') this.withdrawn += 1;
    else if (event.type === 'AnswerDoubted' || event.type === 'AnswerNotUnderstood') {
      if (event.question === 'alarm') this.report.doubted = event.type === 'AnswerDoubted';
      this.goBackTo(event.question);
    } else if (event.type === 'ChangeFinished' || event.type === 'SessionOpened') this.changing = false;
    else if (event.type === 'WaitEnded' && event.how === 'early') this.counts.waitsCutShort += 1;
    else if (event.type === 'TroubleReported' && event.givenAt === undefined) this.counts.troubles += 1;
    else if (event.type === 'BatchGivenUp') this.givenUp = true;
    else if (event.type === 'ReviewSigned') this.verdict = textIn(event.verdict);
  }

  /**
   * A stop bars the way back, so a withdrawal may have done nothing. The question that comes next tells how far it went;
   * a doubt may be about another one, and then tells nothing.
   */
  private goBackTo(question: unknown): void {
    for (let back = this.withdrawn; back > 0; back -= 1) {
      const index = this.past.length - back;
      if (this.past[index]?.question !== question) continue;
      this.returnTo(index);
      this.withdrawn = 0;
      return;
    }
  }

  private returnTo(index: number): void {
    const past = this.past[index];
    if (!past) return;
    this.stand = past.before;
    this.past.length = index;
  }

  private answered(event: Event): void {
    const question = textIn(event.question) ?? '';
    if (event.type === 'AnswerChanged') {
      this.counts.changes += 1;
      this.changing = true;
      this.returnTo(this.past.findLastIndex((past) => past.question === question));
    } else if (this.withdrawn > 0) this.goBackTo(question);
    this.withdrawn = 0;
    const { stand } = this;
    this.past.push({ question, visit: stand.visit, before: stand });
    this.answeredSince = true;
    const answer = loose(event.answer);
    if (answer?.kind === 'not-sure' && event.givenAt === undefined) this.counts.notSure += 1;
    if (keptAnswers.includes(question)) {
      const text = textIn(answer?.text) ?? textIn(answer?.choice) ?? '';
      this.stand = { ...stand, said: { ...stand.said, [question]: text } };
    }
    if (question === 'alarm') this.alarmed(textIn(answer?.choice));
    const dropout = dropoutIn(question, answer);
    // The first check shows how the reaction itself went; later ones how it was mended.
    if (dropout !== undefined && stand.values.dropout === undefined) this.setValue('dropout', dropout);
  }

  /** A report sets stops off; "all is well", said back and confirmed, takes back what the last report set off. */
  private alarmed(choice: string | undefined): void {
    const takenBack = choice === 'all-well' && this.report.doubted;
    const { held, cleared } = this.stand;
    const { stops } = this.report;
    if (takenBack) {
      this.stand = {
        ...this.stand,
        held: held.filter((stop) => !stops.includes(stop)),
        cleared: [...cleared, ...held.filter((stop) => stops.includes(stop))],
      };
    }
    this.report = { stops, doubted: false, fresh: choice !== 'all-well' };
  }

  private evaluated(at: string, event: Event): void {
    const outcome = loose(event.outcome);
    const stage = textIn(event.stage) ?? '';
    this.outcome = { true: textsIn(outcome?.true), deciding: textsIn(outcome?.deciding) };
    if (stage !== this.stand.stage || !this.answeredSince) this.enter(stage);
    if (!this.changing && this.clock.stage !== stage) this.turnClock(stage);
    this.answeredSince = false;
    this.evaluatedAt = at;
    this.takeFigures(outcome);
    this.takeStops(textsIn(outcome?.unsafe));
  }

  private enter(stage: string): void {
    this.stand = { ...this.stand, stage, visit: this.counts.records };
    if (this.changing) return;
    const time = this.times.get(stage) ?? { hours: 0, visits: 0 };
    this.times.set(stage, { ...time, visits: time.visits + 1 });
  }

  /** A stage ends with the evaluation that led out of it. A clock that was put back gives no time to count. */
  private hoursSince(): number {
    const hours = (Date.parse(this.evaluatedAt) - Date.parse(this.clock.since)) / hourMs;
    return Number.isNaN(hours) ? 0 : Math.max(hours, 0);
  }

  private turnClock(stage: string): void {
    const time = this.times.get(this.clock.stage);
    if (time) time.hours += this.hoursSince();
    this.clock = { stage, since: this.evaluatedAt };
  }

  /** The stages that were left; the last one too when the batch is finished. */
  private stagesLeft(finished: boolean): BatchRow['stages'] {
    return [...this.times].flatMap(([stage, { hours, visits }]) => {
      if (stage !== this.clock.stage) return [{ stage, hours, visits }];
      if (finished) return [{ stage, hours: hours + this.hoursSince(), visits }];
      return visits > 1 ? [{ stage, hours, visits: visits - 1 }] : [];
    });
  }

  private takeFigures(outcome: Readonly<Record<string, unknown>> | undefined): void {
    const fresh = loose(outcome?.figures);
    for (const fact in fresh) {
      const measure = figures.get(fact);
      if (measure === undefined) continue;
      const figure = loose(fresh[fact]);
      const value = figure?.unit === measured[measure].unit ? numberIn(figure.value) : undefined;
      if (value !== undefined) this.setValue(measure, value);
    }
    for (const fact of textsIn(outcome?.lost)) {
      const measure = figures.get(fact);
      if (measure !== undefined) this.setValue(measure, undefined);
    }
  }

  private setValue(measure: Measure, value: number | undefined): void {
    const { [measure]: _before, ...others } = this.stand.values;
    const values = value === undefined ? others : { ...others, [measure]: value };
    this.stand = { ...this.stand, values };
  }

  private takeStops(unsafe: readonly string[]): void {
    const { held, cleared } = this.stand;
    if (unsafe.length === 0 && held.length === 0 && cleared.length === 0) return;
    const released = held.filter((stop) =>
      this.ends.releasing.get(stop)?.some((key) => this.outcome.true.includes(key)),
    );
    const fresh = unsafe.filter((stop) => !held.includes(stop) && !cleared.includes(stop));
    for (const stop of fresh) this.stops.add(stop);
    if (this.report.fresh) this.report = { ...this.report, stops: fresh, fresh: false };
    this.stand = {
      ...this.stand,
      held: [...held.filter((stop) => !released.includes(stop)), ...fresh],
      // What was cleared and is unsafe still has been dealt with; once it is safe it can hold anew.
      cleared: [...cleared, ...released].filter((stop) => unsafe.includes(stop)),
    };
  }

  private ended(): BatchRow['ended'] {
    if (this.opening.trouble) return 'trouble-only';
    if (this.givenUp) return 'abandoned';
    const { stage, visit, held } = this.stand;
    if (held.length > 0 || this.answeredSince || this.withdrawn > 0) return 'unfinished';
    const isAnswered = (question: string) =>
      this.past.some(
        (past) => past.question === question && (past.visit === visit || this.ends.once.has(question)),
      );
    return endedAt(this.ends, stage, this.outcome, isAnswered) ?? 'unfinished';
  }

  row(): BatchRow {
    const ended = this.ended();
    const { stage, values, said, held } = this.stand;
    const { records, ...counts } = this.counts;
    const kept = { maker: said.maker, experience: said.experience, decision: said['decision-taken'] };
    const { batch, opened } = this.opening;
    return {
      ...{ batch, opened, last: this.last, records },
      ...Object.fromEntries(Object.entries(kept).filter(([, text]) => text !== undefined)),
      ...{ ended, stage, values },
      stages: this.stagesLeft(ended === 'finished'),
      ...{ stops: [...this.stops], held: [...held], ...counts },
      ...(this.verdict === undefined ? {} : { verdict: this.verdict }),
    };
  }
}

/** Oil at the bottom of the methanol check, mL: nothing when it was clear. */
function dropoutIn(
  question: string,
  answer: Readonly<Record<string, unknown>> | undefined,
): number | undefined {
  if (question === 'conv-test') return answer?.choice === 'clear' ? 0 : undefined;
  if (question !== 'dropout-ml' || answer?.unit !== measured.dropout.unit) return undefined;
  return numberIn(answer.value);
}
