import { type Book, factsSetBy, hazardOf, stageOf } from '../rulebook/book.ts';
import { factsOf } from '../rulebook/condition.ts';
import { type Evaluation, figuresAfter } from '../rulebook/evaluation.ts';
import { adviceRestingOn, rootsOf } from '../rulebook/roots.ts';
import { adviceKey, askKey, clearKey, hazardKey, wayKey } from '../rulebook/rule-keys.ts';
import type { Advice } from '../rulebook/rule-schema.ts';
import { signals } from '../rulebook/signals.ts';
import { endBatch, forget, goOn } from './ask.ts';
import { change, type Draft, say, without } from './draft.ts';
import { enterStage } from './enter-stage.ts';
import { wasMistaken } from './mistaken-report.ts';
import { nearLimits } from './near-limit.ts';
import { sayStop } from './say-stop.ts';
import type { Hold, State } from './state.ts';

/** What a stop looked at, so that a cleared one speaks again only when something it looks at changes. */
function seenBy(book: Book, state: State, stop: string): string {
  const facts = factsOf(hazardOf(book, stop)['safe-when']);
  const roots = [...new Set(facts.flatMap((fact) => rootsOf(book, fact)))];
  const answers = roots.map((question) => [question, state.answers[question]?.turn ?? 0]);
  return JSON.stringify([answers, facts.map((fact) => state.figures[fact]?.value ?? null)]);
}

function release(draft: Draft, stop: string): void {
  change(draft, {
    held: draft.state.held.filter((hold) => hold.stop !== stop),
    cleared: { ...draft.state.cleared, [stop]: seenBy(draft.book, draft.state, stop) },
  });
}

/** Clears a stop, or takes the way to another stage that was chosen instead; says so when neither is open yet. */
function tryToClear(draft: Draft, stop: string, outcome: Evaluation): string | undefined {
  const { clear } = hazardOf(draft.book, stop);
  if (wasMistaken(draft.book, draft.state, stop)) {
    release(draft, stop);
    change(draft, { waiting: undefined });
    say(draft, 'cleared', 'Taken back: it never was there. The report and this answer stay in the log.', {
      id: stop,
    });
    return undefined;
  }
  const way = clear.go?.find((_way, index) => outcome.true.includes(wayKey(stop, index)));
  if (way) {
    release(draft, stop);
    say(draft, 'cleared', 'Not here, then: we go back and do it another way. The stop stays in the log.', {
      id: stop,
    });
    return way.to;
  }
  if (outcome.true.includes(clearKey(stop))) {
    release(draft, stop);
    say(draft, 'cleared', clear.say ?? 'That clears the stop. It stays in the log.', { id: stop });
    return undefined;
  }
  const answered = clear.ask.some((question) => draft.state.answers[question]);
  if (!answered || nextClearing(draft, clear.ask) !== undefined) return undefined;
  sayStop(draft, stop, 'Not yet. ');
  forget(draft, clear.ask);
  return undefined;
}

function nextClearing(draft: Draft, asks: readonly string[]): string | undefined {
  return asks.find(
    (question) =>
      !draft.state.answers[question] &&
      (draft.book.questions[question]?.when === undefined || draft.state.true.includes(askKey(question))),
  );
}

/**
 * The session a stop began to hold in. A change is refused while a stop holds, so one that comes up again after a
 * change was cleared before, in a later session where it needs one.
 */
function sessionOfHold({ changing, session }: State, stop: string): number {
  return changing?.spoke.includes(hazardKey(stop)) ? session - 1 : session;
}

function holdWhatIsUnsafe(draft: Draft, outcome: Evaluation): void {
  for (const stop of outcome.unsafe) {
    if (draft.state.held.some((hold) => hold.stop === stop)) continue;
    if (draft.state.cleared[stop] === seenBy(draft.book, draft.state, stop)) continue;
    sayStop(draft, stop);
    forget(draft, hazardOf(draft.book, stop).clear.ask);
    const hold = { stop, session: sessionOfHold(draft.state, stop) };
    const trace = outcome.traces[hazardKey(stop)];
    // Going back would be a way round the stop.
    change(draft, { held: [...draft.state.held, hold], floor: draft.state.past.length });
    if (trace) change(draft, { traces: { ...draft.state.traces, [hazardKey(stop)]: trace } });
  }
}

/** The worst stop is asked about first, and what is happening before what only bars the way. */
function worstFirst(draft: Draft): void {
  const rank = (hold: Hold) => {
    const { signal, now } = hazardOf(draft.book, hold.stop);
    return signals.indexOf(signal) * 2 + (now ? 0 : 1);
  };
  const held = [...draft.state.held].sort(
    (one, other) => rank(one) - rank(other) || one.stop.localeCompare(other.stop),
  );
  change(draft, { held });
}

/** Clears what can be cleared, then holds what is unsafe; gives the stage to go to, where one was chosen. */
function applyStops(draft: Draft, outcome: Evaluation): string | undefined {
  const ways = draft.state.held.map((hold) => tryToClear(draft, hold.stop, outcome));
  const way = ways.find((to) => to !== undefined);
  if (way === undefined) holdWhatIsUnsafe(draft, outcome);
  worstFirst(draft);
  return way;
}

/** Figures are told when they are first known and whenever their value changes. */
function tellFigures(draft: Draft, before: State['figures'], outcome: Evaluation): void {
  for (const computation of draft.book.computations) {
    if (!computation.say) continue;
    const fresh = factsSetBy(computation).some(
      (fact) => outcome.figures[fact] && outcome.figures[fact].value !== before[fact]?.value,
    );
    if (fresh) say(draft, 'figure', computation.say, { id: factsSetBy(computation)[0] ?? '' });
  }
  for (const { fact, says } of outcome.refused) {
    const key = `${fact}: ${says}`;
    if (draft.state.saidOnce.includes(key)) continue;
    change(draft, { saidOnce: [...draft.state.saidOnce, key] });
    say(draft, 'figure', `I cannot work that out: ${says}`, { signal: 'NOTICE', id: fact });
  }
}

/** Keeps why a rule spoke, the last to speak last, and says where the ± leaves its decision open. */
function remember(draft: Draft, key: string, trace: Evaluation['traces'][string] = []): void {
  const near = nearLimits(draft.book, draft.state, trace);
  for (const { says } of near) say(draft, 'advice', says, { signal: 'NOTICE', id: key });
  change(draft, {
    told: [...draft.state.told, key],
    saidOnce: [...draft.state.saidOnce, ...near.map((one) => one.key)],
    traces: { ...without(draft.state.traces, [key]), [key]: trace },
  });
}

function tellAdvice(draft: Draft, outcome: Evaluation): Advice[] {
  const spoken: Advice[] = [];
  for (const advice of stageOf(draft.book, draft.state.stage).advice) {
    const key = adviceKey(advice.id);
    if (!outcome.true.includes(key) || draft.state.told.includes(key)) continue;
    const { signal, id, because } = advice;
    say(draft, 'advice', advice.say, { signal, id, because });
    remember(draft, key, outcome.traces[key]);
    spoken.push(advice);
  }
  return spoken;
}

function askAgain(
  draft: Draft,
  questions: readonly string[],
  after: string | undefined,
  firm: boolean,
): void {
  const resting = adviceRestingOn(draft.book, draft.state.stage, questions);
  forget(draft, questions);
  const [first] = questions;
  change(draft, {
    told: draft.state.told.filter((key) => !resting.includes(key)),
    delays: { ...draft.state.delays, ...(first && after ? { [first]: after } : {}) },
    firm: first && after && firm ? [...draft.state.firm, first] : draft.state.firm,
  });
}

/** What spoken advice asks for, done in its order; a way out of the stage comes last. */
function followAdvice(draft: Draft, spoken: readonly Advice[]): void {
  const actions = spoken.flatMap((advice) => advice.then ?? []);
  for (const { signal, then } of spoken) {
    if (then?.['ask-again']) askAgain(draft, then['ask-again'], then.after, signal === 'DANGER');
  }
  const end = actions.find((action) => action.end)?.end;
  const go = actions.find((action) => action.go)?.go;
  if (end) endBatch(draft, end);
  else if (go) enterStage(draft, go);
}

/** Takes in what the rules said: stops first, then figures, advice and what the advice asks for. */
export function applyRules(draft: Draft, outcome: Evaluation): void {
  const before = draft.state.figures;
  const { undecided, deciding } = outcome;
  const figures = figuresAfter(before, outcome);
  change(draft, { evaluating: false, figures, undecided, deciding, true: outcome.true, alarm: false });
  const way = applyStops(draft, outcome);
  tellFigures(draft, before, outcome);
  if (way && draft.state.held.length === 0) enterStage(draft, way);
  else if (draft.state.held.length === 0) followAdvice(draft, tellAdvice(draft, outcome));
  goOn(draft);
}
