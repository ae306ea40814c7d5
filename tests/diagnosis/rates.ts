import type { Diagnosis } from '../../src/rulebook/diagnosis-schema.ts';
import { seeded } from '../random.ts';
import { compare, smallProblem } from './best-order.ts';
import { atRandom, best, checklist, checksUntil, simulate, withMovedWords } from './simulate.ts';

/** Complaints small enough to try every order of their four most promising checks. */
const small = [
  ['soft-hoses', 'use'],
  ['cold-gel', 'store'],
  ['odd-titration', 'titrate'],
  ['slow-heating', 'react'],
  ['foam-heating', 'dewater'],
  ['drywash-soap', 'wash-dry'],
  ['acid-high', 'store'],
] as const;
const checksTried = 4;
const seed = 20260302;

/** How well the next check is chosen, against a checklist, chance, the best order, and wrong tables. */
export function rates(diagnosis: Diagnosis, cases: number) {
  const ours = simulate(diagnosis, diagnosis, best, cases, seed);
  const listed = simulate(diagnosis, diagnosis, checklist, cases, seed);
  const chance = simulate(diagnosis, diagnosis, atRandom(seeded(seed + 1)), cases, seed);
  const moved = simulate(withMovedWords(diagnosis, seeded(seed + 2)), diagnosis, best, cases, seed);
  const wanted = Math.min(ours.first, listed.first);
  return {
    cases,
    ways: { ours, listed, chance, moved },
    /** At the hit rate that both reach. */
    equal: { wanted, ours: checksUntil(ours, wanted), listed: checksUntil(listed, wanted) },
    orders: small.map(([complaint, stage]) => ({
      complaint,
      stage,
      ...compare(smallProblem(diagnosis, complaint, stage, checksTried)),
    })),
  };
}

export type Rates = ReturnType<typeof rates>;

const percent = (share: number) => `${(share * 100).toFixed(0)} %`;

/** The figures as tables of Markdown. */
export function ratesInWords({ cases, ways, equal, orders }: Rates): string {
  const row = (name: string, { first, firstThree, checks, cost }: Rates['ways']['ours']) =>
    `| ${name} | ${percent(first)} | ${percent(firstThree)} | ${checks.toFixed(1)} | ${cost.toFixed(1)} |`;
  return [
    `| order of the checks (${cases} drawn cases) | cause first | among three | checks | cost |`,
    '| --- | --- | --- | --- | --- |',
    row('most telling for its cost (Batchside)', ways.ours),
    row('a fixed checklist', ways.listed),
    row('at random', ways.chance),
    row('Batchside, every likelihood word moved one up or down', ways.moved),
    '',
    `To have the true cause first in ${percent(equal.wanted)} of the cases the checklist takes ${equal.listed.toFixed(1)} checks ` +
      `on average, Batchside ${equal.ours.toFixed(1)} (${percent(equal.ours / equal.listed)} of them).`,
    '',
    '| complaint, at | cost of the best order | cost of our order | more |',
    '| --- | --- | --- | --- |',
    ...orders.map(
      ({ complaint, stage, best: least, ours }) =>
        `| ${complaint}, ${stage} | ${least.toFixed(2)} | ${ours.toFixed(2)} | ${percent(ours / least - 1)} |`,
    ),
  ].join('\n');
}
