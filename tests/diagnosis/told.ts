import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import * as z from 'zod';
import { readDescription } from '../../src/conversation/understanding/read-description.ts';
import type { Ranked } from '../../src/diagnosis/beliefs.ts';
import type { Found, Trouble } from '../../src/diagnosis/trouble.ts';
import { weigh } from '../../src/diagnosis/verdict.ts';
import type { Diagnosis } from '../../src/rulebook/diagnosis-schema.ts';

const one = z.strictObject({
  name: z.string(),
  said: z.string(),
  nearest: z.array(z.string()),
  stage: z.string(),
  answers: z.record(z.string(), z.string()),
  cause: z.union([z.string(), z.array(z.string())]),
  source: z.string(),
});

export type Told = z.infer<typeof one>;

/** Troubles told by hand, from the literature and from common practice. */
export const told: Told[] = z
  .strictObject({ cases: z.array(one) })
  .parse(parse(readFileSync(new URL('./cases.yaml', import.meta.url), 'utf8'))).cases;

/** More checks than this no maker would make for one trouble. */
const mostChecks = 40;

export interface Followed {
  /** What was read and confirmed, and whether the maker had to say no. */
  complaint: string | undefined;
  read: readonly Found[];
  denied: boolean;
  checks: number;
  causes: readonly Ranked[];
}

/** What the maker of a story confirms: nothing that is not so, and no complaint that is not theirs. */
function confirmed(diagnosis: Diagnosis, { said, nearest, answers }: Told) {
  const { complaints, found } = readDescription(diagnosis, said);
  const isWrong = ({ finding, choice }: Found) =>
    answers[finding] !== undefined && answers[finding] !== choice;
  const [first] = complaints;
  if (!found.some(isWrong) && (first === undefined || nearest.includes(first)))
    return { complaint: first ?? nearest[0], read: found, denied: false, toAsk: [] };
  // Said no: the complaint is taken from the list, and each thing that was read is asked by itself.
  return { complaint: nearest[0], read: [], denied: true, toAsk: found.map(({ finding }) => finding) };
}

/** Follows a story as the talk does, its maker answering what is in the story and "not sure" to all else. */
export function follow(diagnosis: Diagnosis, story: Told): Followed {
  const { complaint, read, denied, toAsk } = confirmed(diagnosis, story);
  let trouble: Trouble = { complaint, stage: story.stage, found: read, passed: [] };
  const ask = (finding: string) => {
    const choice = story.answers[finding];
    trouble =
      choice === undefined
        ? { ...trouble, passed: [...trouble.passed, finding] }
        : { ...trouble, found: [...trouble.found, { finding, choice }] };
  };
  for (const finding of toAsk) ask(finding);
  let checks = toAsk.length;
  let verdict = weigh(diagnosis, trouble, {}, []);
  while (verdict.next && checks < mostChecks) {
    ask(verdict.next.finding);
    checks += 1;
    verdict = weigh(diagnosis, trouble, {}, []);
  }
  return { complaint, read, denied, checks, causes: verdict.causes };
}

export function rankOf({ cause }: Told, causes: readonly Ranked[]): number {
  return causes.findIndex(({ id }) => (Array.isArray(cause) ? cause.includes(id) : cause === id));
}
