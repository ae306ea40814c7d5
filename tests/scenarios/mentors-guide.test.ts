import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { showQuantity } from '../../src/quantity/show.ts';
import { nameOfFact } from '../../src/rulebook/explain.ts';
import type { ReviewCheck } from '../../src/rulebook/review-schema.ts';
import { book } from '../rulebook/cases.ts';

const page = new URL('../../docs/mentors-guide.md', import.meta.url).pathname;
const begin = '<!-- The list is made from rules/review by `npm run docs`; do not edit it by hand. -->';
const end = '<!-- End of the list. -->';

/** Limits as they stand; what only a log can fill in stays open. */
function inWords(text: string): string {
  return text.replace(/\{([^}]+)\}/g, (_whole, fact: string) => {
    const limit = fact.startsWith('limit.') ? book.limits[fact.slice('limit.'.length)] : undefined;
    return limit ? showQuantity(limit.value, limit.unit, {}) : '…';
  });
}

function entryOf({ id, name, signal, fix, say, around }: ReviewCheck): string {
  const right = fix ? ', to be put right before the figures count' : '';
  const looksAt = around.map((question) => `*${nameOfFact(book, question).replace(/[?.]$/, '')}*`).join(', ');
  return [
    `- **${id} ${name.replaceAll('-', ' ')}**, ${signal}${right}.`,
    `  Says: ${inWords(say)}`,
    `  Looks at: ${looksAt}.`,
  ].join('\n');
}

const byNumber = (one: ReviewCheck, other: ReviewCheck) =>
  one.id.localeCompare(other.id, 'en', { numeric: true });

function listOfChecks(): string {
  const right = book.review.filter(({ fix }) => fix).length;
  return [
    `${book.review.length} checks, ${right} of them about what has to be put right. Where … stands, the log fills in.`,
    '',
    ...[...book.review].sort(byNumber).map(entryOf),
  ].join('\n');
}

it('the list of checks in docs/mentors-guide.md is the one in rules/review', async () => {
  const text = readFileSync(page, 'utf8');
  const [before, rest] = text.split(begin);
  const after = rest?.split(end)[1];
  expect(after, 'the page has lost its marks').toBeDefined();
  await expect(`${before}${begin}\n\n${listOfChecks()}\n\n${end}${after}`).toMatchFileSnapshot(page);
});

it('the stages that can be shown are all named', () => {
  const text = readFileSync(page, 'utf8').replaceAll('\n', ' ');
  const named = /The stages are (?<list>[^.]+)\./.exec(text)?.groups?.list?.split(/, | and /);
  expect(named).toEqual(book.stages.map(({ stage }) => stage));
});
