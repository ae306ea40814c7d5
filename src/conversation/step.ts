import type { Book } from '../rulebook/book.ts';
import { questionOf, stageOf } from '../rulebook/book.ts';
import type { Evaluation } from '../rulebook/evaluation.ts';
import { hazardKey } from '../rulebook/rule-keys.ts';
import { applyRules } from './apply-rules.ts';
import { endBatch, goOn } from './ask.ts';
import { change, type Draft, say, without } from './draft.ts';
import { tellDroppedChange } from './dropped-change.ts';
import type { Effect } from './effects.ts';
import { askForRules, enterStage } from './enter-stage.ts';
import type { EventBody, TalkEvent } from './events.ts';
import { statusOf } from './facts.ts';
import { isTakenBack } from './mistaken-report.ts';
import { askTheMomentAgain } from './moment.ts';
import { dropOffered, takeAlso } from './offered.ts';
import { pause } from './pause.ts';
import { raiseAlarm, reportTrouble, restartWait } from './raise-alarm.ts';
import { replyTo } from './reply.ts';
import { sayStop } from './say-stop.ts';
import { emptyState, type Given, type State, type Wait } from './state.ts';
import { showMinutes } from './time.ts';
import {
  beginTrouble,
  describeTrouble,
  isOfTrouble,
  leaveTrouble,
  takeInTrouble,
  takeOutcome,
} from './trouble/talk-of-trouble.ts';
import { warnedSince } from './warned.ts';
import { askWhatIf, changedFigures, tellWhatIf } from './what-if.ts';
import { answerInWords } from './wording.ts';

type EventOf<T extends EventBody['type']> = Extract<EventBody, { type: T }>;

function openBatch(draft: Draft, event: EventOf<'BatchOpened'>): void {
  draft.state = { ...emptyState, batch: event.batch, openedAt: draft.at, session: 1 };
  const [first] = draft.book.stages;
  if (!first) throw new Error('the rules have no stages');
  if (event.purpose === 'trouble') {
    change(draft, { stage: first.stage });
    beginTrouble(draft, true);
    // Danger first: nothing is looked into while somebody may have to run.
    raiseAlarm(draft);
    return;
  }
  enterStage(draft, first.stage);
  goOn(draft);
}

/** Hours away after which what holds for the moment only (protection, sparks, who knows) is asked again. */
const freshForMinutes = 120;

function openSession(draft: Draft, event: EventOf<'SessionOpened'>): void {
  const { changing } = draft.state;
  change(draft, { session: draft.state.session + 1, paused: false, pauseWarned: false, changing: undefined });
  if (draft.state.ended) return;
  if (changing)
    say(draft, 'note', 'The program ended in the middle of a change: what comes after it is asked again.');
  const alone = draft.state.trouble?.alone;
  const where = alone ? 'finding out what went wrong' : stageOf(draft.book, draft.state.stage).title;
  say(draft, 'session', `Batch ${draft.state.batch} goes on where it stopped: ${where}.`);
  for (const hold of draft.state.held) sayStop(draft, hold.stop, 'Still held. ');
  if (event.awayMinutes >= freshForMinutes && draft.state.held.length === 0) {
    change(draft, { absences: [...draft.state.absences, draft.at] });
    askTheMomentAgain(draft);
  }
  const { trouble } = draft.state;
  // What was being worked out when the program ended is worked out anew.
  if (trouble?.weighing) change(draft, { trouble: { ...trouble, weighing: false }, asking: undefined });
  if (draft.state.evaluating) askForRules(draft);
  else if (!draft.state.asking && !draft.state.waiting) goOn(draft);
}

function takeAnswer(draft: Draft, given: Omit<Given, 'before'>): void {
  const { state, book } = draft;
  const { question, answer, text, at } = given;
  const past = [...state.past, { ...given, before: { ...state, past: [], changing: undefined } }];
  const mayGoBack = state.held.length === 0 && !state.alarm;
  takeAlso(draft, question, text);
  change(draft, {
    turn: state.turn + 1,
    answers: {
      ...state.answers,
      [question]: { answer, status: statusOf(answer), at, turn: state.turn + 1 },
    },
    delays: without(state.delays, [question]),
    firm: state.firm.filter((id) => id !== question),
    challenged: without(state.challenged, [question]),
    mistaken: isTakenBack(state, question, answer),
    doubt: undefined,
    pauseWarned: false,
    waiting: state.waiting?.question === question ? undefined : state.waiting,
    past,
    floor: mayGoBack ? state.floor : past.length,
  });
  const words = answerInWords(questionOf(book, question), answer);
  say(draft, 'answer', words, { id: question, asked: questionOf(book, question).ask });
  if (isOfTrouble(question)) {
    takeInTrouble(draft, question, answer);
    // Opened by itself, there is no batch to go on with once the way on is chosen.
    if (state.trouble?.alone && !draft.state.trouble) endBatch(draft, 'finished');
    else goOn(draft);
    return;
  }
  if (question === 'alarm') restartWait(draft, answer);
  if (
    question === 'alarm' &&
    answer.kind === 'choice' &&
    answer.choice === 'not-right' &&
    !draft.state.trouble
  ) {
    beginTrouble(draft, false);
  }
  askForRules(draft);
}

/** Puts the talk back to just before one of its answers. The turn count goes on, so that answers stay told apart. */
function returnTo(draft: Draft, index: number): void {
  const { past, session, turn, wording, absences, challenged } = draft.state;
  const before = past[index]?.before;
  if (!before) return;
  draft.state = { ...before, past: past.slice(0, index), session, turn, wording, absences, challenged };
}

function takeBack(draft: Draft): void {
  const { past, floor } = draft.state;
  if (past.length <= floor) {
    say(draft, 'asks-back', 'There is nothing to go back to here. A stop is cleared by its own question.');
    return;
  }
  const last = past.at(-1);
  const warning = last && warnedSince(draft.book, draft.state, last);
  returnTo(draft, past.length - 1);
  const question = draft.state.asking;
  say(draft, 'note', `Taken back: ${question ? questionOf(draft.book, question).ask : 'the last answer'}`);
  if (!last || !warning) return;
  change(draft, { challenged: { ...draft.state.challenged, [last.question]: last.answer } });
  const was = answerInWords(questionOf(draft.book, last.question), last.answer);
  const says = `You had said "${was}". What I told you to that holds until you have looked again: ${warning.say}`;
  say(draft, 'asks-back', says, { signal: warning.signal });
}

/** An earlier answer is put right; whoever carries out effects then gives the later ones again. */
function changeAnswer(draft: Draft, { question, answer, text }: EventOf<'AnswerChanged'>): void {
  const { past, figures, stage, waiting, traces } = draft.state;
  const index = past.findLastIndex((given) => given.question === question);
  if (index < 0) return;
  returnTo(draft, index);
  change(draft, { changing: { question, figures, stage, waiting, spoke: Object.keys(traces) } });
  // What was said ahead and has been taken since is among the later answers.
  dropOffered(
    draft,
    past.slice(index + 1).map((given) => given.question),
  );
  takeAnswer(draft, { question, answer, text, at: past[index]?.at ?? draft.at });
}

/** A wait that was running goes on running; one that the change brings begins now. */
function takeUpWait(draft: Draft, before: State['waiting']): void {
  const { waiting } = draft.state;
  if (!waiting) return;
  if (before && before.question === waiting.question && before.minutes === waiting.minutes) {
    change(draft, { waiting: { ...waiting, since: before.since } });
    draft.effects.push({ do: 'setTimer', minutes: waiting.minutes });
  } else say(draft, 'wait', `Wait ${showMinutes(waiting.minutes)}: ${waiting.for}`, { id: waiting.question });
}

/** The later answers have been given again as far as they were asked: tell what is different. */
function finishChange(draft: Draft): void {
  const { changing, figures, stage, ended, asking } = draft.state;
  if (!changing) return;
  change(draft, { changing: undefined });
  const lines = changedFigures(draft.book, changing.figures, figures);
  const name = questionOf(draft.book, changing.question);
  const changed = (name.short ?? name.ask).replace(/[?.]$/, '');
  const opening = `Changed: ${changed}. All that rests on it is worked out again.`;
  const place =
    stage === changing.stage ? [] : [`- The batch is now here: ${stageOf(draft.book, stage).title}`];
  const told = lines.length > 0 ? lines : ['- No figure is different.'];
  say(draft, 'note', [opening, ...told, ...place].join('\n'));
  if (ended) return;
  for (const { stop } of draft.state.held) {
    if (changing.spoke.includes(hazardKey(stop))) sayStop(draft, stop, 'This holds again. ');
  }
  takeUpWait(draft, changing.waiting);
  askTheMomentAgain(draft);
  if (asking && !draft.state.asking) goOn(draft);
}

function pressedNoMore({ pressed: _pressed, ...wait }: Wait): Wait {
  return wait;
}

function endWait(draft: Draft, event: EventOf<'WaitEnded'>): void {
  const { waiting } = draft.state;
  if (!waiting) return;
  if (event.how === 'early') {
    const passed = showMinutes(Math.round(event.waitedMinutes));
    say(
      draft,
      'note',
      `Looked after ${passed} instead of ${showMinutes(waiting.minutes)}. The log keeps that.`,
      {
        signal: 'NOTICE',
      },
    );
  }
  change(draft, { waiting: undefined, waited: [...draft.state.waited, waiting.question] });
  goOn(draft);
}

function doubt(draft: Draft, event: EventOf<'AnswerDoubted'>): void {
  const { question, says, meant, typed, text, either, also, changes } = event;
  if (!changes) tellDroppedChange(draft);
  change(draft, {
    doubt: { question, says, meant, typed, text, either, also, ...(changes ? { changes } : {}) },
  });
  say(draft, 'asks-back', `"${text}"? ${says}`, { id: question });
}

/** Back to the batch; opened by itself, the finding out is then over. */
function endTrouble(draft: Draft): void {
  const alone = draft.state.trouble?.alone;
  leaveTrouble(draft);
  say(draft, 'note', 'We leave it at that. What was found is in the log.');
  if (alone) endBatch(draft, 'finished');
  else goOn(draft);
}

const handlers: { [T in EventBody['type']]: (draft: Draft, event: EventOf<T>) => void } = {
  BatchOpened: openBatch,
  SessionOpened: openSession,
  AnswerGiven: (draft, { question, answer, text, givenAt }) => {
    tellDroppedChange(draft);
    takeAnswer(draft, { question, answer, text, at: givenAt ?? draft.at });
  },
  AnswerChanged: changeAnswer,
  ChangeFinished: finishChange,
  AnswerDoubted: doubt,
  AnswerNotUnderstood: (draft, event) => {
    const { waiting } = draft.state;
    const pressed = event.settles === 'wait' ? { pressed: true as const } : {};
    if (waiting) change(draft, { waiting: { ...pressedNoMore(waiting), ...pressed } });
    change(draft, { doubt: undefined });
    say(draft, 'asks-back', `"${event.text}"? ${event.says}`, { id: event.question });
  },
  AnswerWithdrawn: takeBack,
  RulesEvaluated: (draft, event) => {
    const fresh = Object.keys(event.outcome.figures);
    if (fresh.length > 0) change(draft, { lastFigures: fresh });
    applyRules(draft, event.outcome as Evaluation);
  },
  TroubleReported: (draft, { text, givenAt }) => reportTrouble(draft, text, givenAt !== undefined),
  TroubleDescribed: (draft, event) => {
    describeTrouble(draft, event);
    goOn(draft);
  },
  TroubleWeighed: (draft, event) => {
    takeOutcome(draft, event.outcome);
    goOn(draft);
  },
  TroubleLeft: endTrouble,
  RequestMade: (draft, event) => replyTo(draft, event.request, event.about),
  WhatIfAsked: askWhatIf,
  WhatIfAnswered: tellWhatIf,
  // A review stands beside the batch: it changes nothing of what the maker did.
  ReviewOpened: () => undefined,
  CommentMade: () => undefined,
  CheckSeen: () => undefined,
  ReviewSigned: () => undefined,
  ReviewShown: () => undefined,
  NoteMade: (draft, event) => say(draft, 'note', `Noted: ${event.text}`),
  WaitEnded: endWait,
  SessionPaused: pause,
  BatchGivenUp: (draft, event) => {
    if (event.reason) say(draft, 'note', `Given up: ${event.reason}`);
    endBatch(draft, 'abandoned');
  },
};

function apply<T extends EventBody['type']>(draft: Draft, event: EventOf<T>): void {
  const handle: (draft: Draft, event: EventOf<T>) => void = handlers[event.type as T];
  handle(draft, event);
}

export type Step = (state: State, event: TalkEvent) => { state: State; effects: Effect[] };

/**
 * The whole conversation: a pure function of the state and what happened.
 * Rules do not run here; an `evaluate` effect asks for them and `RulesEvaluated` brings the outcome.
 */
export function makeStep(book: Book): Step {
  return (state, event) => {
    const draft: Draft = { book, at: event.at, state, effects: [] };
    apply(draft, event);
    return { state: draft.state, effects: draft.effects };
  };
}
