import type { Turn } from '../conversation/effects.ts';
import { safeLine } from '../conversation/safe-text.ts';
import { stageNamed } from '../conversation/understanding/stage-named.ts';
import { answerInWords } from '../conversation/wording.ts';
import type { Book } from '../rulebook/book.ts';
import { citeSource, explainTrace } from '../rulebook/explain.ts';
import type { Finding } from './findings.ts';
import type { AnswerTold, Story } from './story.ts';

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

/** What was said around the last answer that a finding rests on; nothing where it rests on none. */
export function turnsAround({ turns }: Story, finding: Finding | undefined): Turn[] {
  const last = finding?.around.at(-1)?.record ?? 0;
  const index = turns.findLastIndex(({ record }) => record <= last);
  const from = Math.max(0, index - mostAround);
  const around = index < 0 ? [] : turns.slice(from, index + mostAround);
  return around.map(({ record: _record, ...turn }) => turn);
}

/** What made a check fire, comparison by comparison, and its source. */
export function whyItFired(book: Book, { trace, source }: Finding): string {
  const lines = trace.map((one) => `- ${explainTrace(book, one, {})}`);
  return [...lines, `Source: ${citeSource(book, source)}`].join('\n');
}

/** The answers that were given in a stage, which may be named in words. */
export function answersOf(book: Book, { answers }: Story, name: string): AnswerTold[] {
  const stage = stageNamed(book, name);
  return stage === undefined ? [] : answers.filter((one) => one.stage === stage);
}
