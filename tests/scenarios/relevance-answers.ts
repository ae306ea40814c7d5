import type { Answer } from '../../src/conversation/events.ts';
import { withMinutes } from '../../src/journal/answer-minutes.ts';
import { questionOf, stageOf } from '../../src/rulebook/book.ts';
import { comparable } from '../../src/rulebook/comparable.ts';
import { compute } from '../../src/rulebook/compute.ts';
import { leavesOf, type Plain } from '../../src/rulebook/condition.ts';
import { conditionsOf, evaluate } from '../../src/rulebook/evaluate.ts';
import type { AnswerStatus, Evaluation, Figure, Occasion } from '../../src/rulebook/evaluation.ts';
import { askKey } from '../../src/rulebook/rule-keys.ts';
import { book } from '../rulebook/cases.ts';

interface Possible {
  status: AnswerStatus;
  value?: Plain | Figure;
}

/** The numbers that conditions of the stage compare a question with, as far as they are known. */
function thresholds(id: string, occasion: Occasion): number[] {
  const { figures } = compute(book, occasion.facts);
  const known = comparable(book, occasion.facts, figures);
  const numberOf = (side: unknown) =>
    typeof side === 'object' && side !== null && 'fact' in side ? known[String(side.fact)] : side;
  return conditionsOf(book, occasion.stage, occasion.held)
    .flatMap(({ condition }) => leavesOf(condition))
    .flatMap((leaf) => {
      if (leaf.fact === id) return [numberOf(leaf.value)];
      return typeof leaf.value === 'object' && 'fact' in leaf.value && leaf.value.fact === id
        ? [known[leaf.fact]]
        : [];
    })
    .filter((one): one is number => typeof one === 'number');
}

function possibleNumbers(id: string, [low, high]: [number, number], occasion: Occasion): number[] {
  const step = (high - low) / 8;
  const spread = Array.from({ length: 9 }, (_none, index) => low + index * step);
  const close = (high - low) / 1000;
  return [...spread, ...thresholds(id, occasion).flatMap((at) => [at - close, at, at + close])];
}

/**
 * Every answer that a question may get: each choice, yes and no, readings over the whole usual range and on both
 * sides of everything that they are compared with; and that nobody knows.
 */
export function possibleAnswers(id: string, occasion: Occasion): Possible[] {
  const { answer } = questionOf(book, id);
  const unknown: Possible[] = [{ status: 'not-sure' }, { status: 'skipped' }];
  const given = (values: (Plain | Figure)[]): Possible[] => [
    ...values.map((value) => ({ status: 'known' as const, value })),
    ...unknown,
  ];
  if ('choice' in answer) return given(Object.keys(answer.choice));
  if ('many' in answer) {
    const all = Object.keys(answer.many);
    return given([[], all, ...all.map((one) => [one])]);
  }
  if ('yes-no' in answer) return given([true, false]);
  if ('clock' in answer) return given(['07:30']);
  if ('text' in answer) return given(['some words']);
  const unit = 'quantity' in answer ? answer.quantity.unit : 'min';
  const range = 'quantity' in answer ? answer.quantity.plausible : answer.duration.plausible;
  return given(possibleNumbers(id, range, occasion).map((value) => ({ value, unit, plusMinus: 0 })));
}

/** The same look at the rules with one question answered otherwise, or not at all. */
function answered(occasion: Occasion, id: string, answer?: Possible): Occasion {
  const values = { ...occasion.facts.values, [id]: answer?.value };
  const status = { ...occasion.facts.status, [id]: answer?.status };
  return { ...occasion, figures: {}, explained: [], facts: { ...occasion.facts, values, status } };
}

/** What the maker would hear or meet: advice, ways out, stops, and whether it is safe to walk away. */
function heard(outcome: Evaluation): string {
  const spoken = outcome.true.filter((key) => !key.startsWith('ask:'));
  return [...spoken, ...outcome.unsafe.map((stop) => `unsafe ${stop}`)].sort().join(', ');
}

/** Answers to a question that would change what is heard; none, if it may be left out. */
export async function answersThatMatter(id: string, occasion: Occasion): Promise<string[]> {
  const without = answered(occasion, id);
  const before = heard(await evaluate(book, withMinutes(without)));
  const found: string[] = [];
  for (const answer of possibleAnswers(id, without)) {
    const after = heard(await evaluate(book, withMinutes(answered(occasion, id, answer))));
    if (after !== before) found.push(`${id} = ${JSON.stringify(answer.value ?? answer.status)}`);
  }
  return found;
}

/**
 * Questions that make sense at a look at the rules, are unanswered and are not asked, because they only decide.
 * @param deciding  what relevance says can still decide something
 */
export function leftOut(occasion: Occasion, outcome: Evaluation, deciding = outcome.deciding): string[] {
  return stageOf(book, occasion.stage).asks.filter((id) => {
    const { purpose, when } = questionOf(book, id);
    const open = when === undefined || outcome.true.includes(askKey(id));
    const unanswered = occasion.facts.status[id] === undefined;
    return open && unanswered && purpose === 'decide' && !deciding.includes(id);
  });
}

/** An answer as the journal keeps it, from one as rules see it. */
export function answerOf(id: string, given: string | number | boolean | string[]): Answer {
  const { answer } = questionOf(book, id);
  if (given === 'not-sure' || given === 'skipped') return { kind: given };
  if (typeof given === 'boolean') return { kind: 'yes-no', yes: given };
  if (Array.isArray(given)) return { kind: 'many', choices: given };
  if (typeof given === 'string') {
    return 'choice' in answer ? { kind: 'choice', choice: given } : { kind: 'text', text: given };
  }
  const unit = 'quantity' in answer ? answer.quantity.unit : 'min';
  return { kind: 'quantity', value: given, unit, plusMinus: 0 };
}
