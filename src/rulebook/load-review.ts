import { checkUnits, unitsOf } from './check-figures.ts';
import { References } from './check-references.ts';
import type { Condition } from './condition.ts';
import type { Loading } from './loading.ts';
import { place } from './place.ts';
import { reviewFileSchema } from './review-schema.ts';
import type { RuleText } from './rule-text.ts';

const reviewPrefix = 'review.';

/** Takes in one file of rules/review: checks, and the names of the facts that only a review has. */
export function addReviewFile(loading: Loading, file: RuleText): void {
  const text = file.read(reviewFileSchema);
  text?.checks?.forEach((check, index) => {
    if (place(loading, 'review check', check.id, file, ['checks', index])) loading.book.review.push(check);
  });
  text?.facts?.forEach((fact, index) => {
    if (place(loading, 'review fact', fact.name, file, ['facts', index])) loading.reviewFacts.push(fact);
  });
}

function stageFacts(loading: Loading): string[] {
  return loading.order.flatMap((stage) => [`visited.${stage}`, `left.${stage}`]);
}

/** Every fact that a check names must exist, numbers must be in one unit, and every question and source be known. */
export function checkReview(loading: Loading): void {
  const own = loading.reviewFacts.map(({ name }) => reviewPrefix + name);
  const check = new References(loading, [...own, ...stageFacts(loading)]);
  const units = unitsOf(loading.book);
  for (const { name, unit } of loading.reviewFacts) if (unit) units.set(reviewPrefix + name, unit);
  const condition = (key: string, one: Condition | undefined) => {
    if (!one) return;
    check.condition(key, one);
    checkUnits(key, one, units, (at, says) => check.say(at, says));
  };
  for (const { id, when, applies, source, around, say, because, praise } of loading.book.review) {
    const key = `review check ${id}`;
    condition(key, when);
    condition(key, applies);
    check.questions(key, around);
    check.source(key, source);
    const filled = [say, because, praise ?? ''].flatMap((text) => text.match(/\{[^}]*\}/g) ?? []);
    check.facts(
      key,
      filled.map((one) => one.slice(1, -1)),
    );
  }
}
