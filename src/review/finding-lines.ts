import type { Turn } from '../conversation/effects.ts';
import { safeLine } from '../conversation/safe-text.ts';
import { stageNamed } from '../conversation/understanding/stage-named.ts';
import { answerInWords, fill } from '../conversation/wording.ts';
import type { Book } from '../rulebook/book.ts';
import { citeSource, explainTrace } from '../rulebook/explain.ts';
import { namedForReview } from './facts.ts';
import type { Finding } from './findings.ts';
import { givenByMaker } from './given.ts';
import { plainIn } from './log-reading.ts';
import type { AnswerTold, Story } from './story.ts';

/** Answers shown with a finding. */
const mostAnswers = 8;

/** Turns shown before and after the place that a finding is about. */
const mostAround = 6;

/** An answer of the log in one line: its record, time and stage, the question in short, and what was said. */
export function answerLine(book: Book, { record, at, question, answer, stage, stands }: AnswerTold): string {
  const asked = book.questions[question];
  const words = safeLine(asked ? answerInWords(asked, answer) : JSON.stringify(answer));
  const name = asked?.short ?? asked?.ask ?? safeLine(question);
  return `${record}  ${at.slice(11, 16)} ${stage}: ${name} ${words}${stands ? '' : ' (no longer counts)'}`;
}

/** The findings one below the other, with what has been looked at. */
export function listOf(findings: readonly Finding[], seen: ReadonlySet<string>): string {
  if (findings.length === 0) return 'The checks found nothing.';
  const lines = findings.map(({ check, signal, fix, name }) => {
    const right = fix ? ', to be put right' : '';
    return `- ${check} ${signal}${right}: ${name.replaceAll('-', ' ')}${seen.has(check) ? ', seen' : ''}`;
  });
  return ['The checks found:', ...lines].join('\n');
}

/** Whether a comparison that was met looked at this very answer, or at a number that is this answer's. */
function wasLookedAt({ question, answer }: AnswerTold, { trace }: Finding): boolean {
  const value = plainIn(answer);
  return trace.some(
    ({ fact, was, met }) => met && was === value && (fact === question || typeof value === 'number'),
  );
}

/** The answers to look at with a finding: those that made it fire, and of the others the latest. */
export function answersShown(finding: Finding): AnswerTold[] {
  const decisive = finding.around.filter((told) => wasLookedAt(told, finding)).slice(-mostAnswers);
  const others = finding.around.filter((told) => !decisive.includes(told));
  const room = mostAnswers - decisive.length;
  const shown = new Set([...decisive, ...(room > 0 ? others.slice(-room) : [])]);
  return finding.around.filter((told) => shown.has(told));
}

/** The answers to look at with a finding, and where to find those that there is no room for. */
export function linesAround(book: Book, finding: Finding): string[] {
  const shown = answersShown(finding);
  const left = finding.around.filter((told) => !shown.includes(told));
  const stages = [...new Set(left.map(({ stage }) => stage))].map((stage) => `show ${stage}`).join(', ');
  const more = left.length > 0 ? [`${left.length} more answers about it: ${stages}`] : [];
  return [...shown.map((told) => answerLine(book, told)), ...more];
}

/** What was said around the answer that a finding rests on; nothing where it rests on none. */
export function turnsAround({ turns }: Story, finding: Finding | undefined): Turn[] {
  const decisive = finding?.around.findLast((told) => wasLookedAt(told, finding)) ?? finding?.around.at(-1);
  const index = turns.findLastIndex(({ record }) => record <= (decisive?.record ?? 0));
  const from = Math.max(0, index - mostAround);
  const around = index < 0 ? [] : turns.slice(from, index + mostAround);
  return around.map(({ record: _record, ...turn }) => turn);
}

/** What made a check fire, comparison by comparison, and its source. */
export function whyItFired(book: Book, { state }: Story, { trace, source }: Finding): string {
  const named = namedForReview(book);
  const lines = trace.map((one) => `- ${explainTrace(book, one, state.figures, named)}`);
  return [...fill(book, state, lines.join('\n')).split('\n'), `Source: ${citeSource(book, source)}`].join(
    '\n',
  );
}

/** The answers that the maker gave in a stage, which may be named in words. */
export function answersOf(book: Book, story: Story, name: string): AnswerTold[] {
  const stage = stageNamed(book, name);
  return stage === undefined ? [] : givenByMaker(story).filter((one) => one.stage === stage);
}
