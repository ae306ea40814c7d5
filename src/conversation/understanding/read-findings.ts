import type { Found } from '../../diagnosis/trouble.ts';
import { readQuantity } from '../../quantity/read-quantity.ts';
import { bandOf } from '../../rulebook/bands.ts';
import type { Finding } from '../../rulebook/diagnosis-schema.ts';
import { normal } from './match-words.ts';
import { clausesOf } from './read-clauses.ts';
import { namedIn } from './read-phrases.ts';
import { stem, tellingStems } from './telling-stems.ts';

const nothing: ReadonlySet<string> = new Set();

/** Words of so many stories that they say nothing of which check is meant. */
const everyday = new Set(
  `hour hours minute minutes day days month months time ppm litre litres oil fuel water tank jar batch test tests
  sample bottom top drops made done used good first last before after again start trouble left one two three four five
  six ten twelve twenty thirty half quarter easy easily fine clean clear same whole more less nothing much many run ran
  stand stood open opened hot cold washed new still always when what how which does did with where without`
    .split(/\s+/)
    .map(stem),
);

/** A word that more checks than this have in their names or questions tells none of them apart. */
const mostShared = 3;

/** For each check, the words by which a part of a description is known to speak of it. */
function subjectsOf(findings: readonly Finding[]): ReadonlyMap<string, ReadonlySet<string>> {
  const all = findings.map(({ id, ask, short = '' }) => ({
    id,
    words: tellingStems(`${id.replaceAll('-', ' ')} ${short} ${ask}`),
  }));
  const share = (word: string) => all.filter(({ words }) => words.has(word)).length;
  return new Map(
    all.map(({ id, words }) => [
      id,
      new Set([...words].filter((word) => share(word) <= mostShared && !everyday.has(word))),
    ]),
  );
}

/** A phrase of this many telling words says by itself which check it answers. */
const tellsByItself = 2;

function readingOf(finding: Finding, part: string): string | undefined {
  if (!finding.bands) return undefined;
  const read = readQuantity(part, { unit: finding.bands.unit });
  if ('problem' in read || read.typed.unitAssumed) return undefined;
  return bandOf(finding.bands, read.value);
}

interface Fit extends Found {
  /** How many telling words of the part speak for it, and how many words of any kind it shares with the question. */
  words: number;
  shared: number;
}

/** The choice that a part of a description gives to one check, and how much of the part speaks for it. */
function fitOf(
  finding: Finding,
  subject: ReadonlySet<string>,
  part: string,
  isShared: (phrase: string) => boolean,
): Fit | undefined {
  const words = [...tellingStems(part)];
  const about = words.filter((word) => subject.has(word));
  const asked = tellingStems(`${finding.short ?? ''} ${finding.ask}`);
  const shared = words.filter((word) => asked.has(word)).length;
  const measured = about.length > 0 ? readingOf(finding, part) : undefined;
  // A reading with its unit says more than a word.
  if (measured) return { finding: finding.id, choice: measured, words: about.length + 2, shared };
  const things = Object.entries(finding.choices).map(([id, { say, also = [] }]) => ({
    id,
    words: [say, ...also].filter((phrase) => {
      const telling = [...tellingStems(phrase)];
      // What only names the check again says nothing of what it showed.
      const says = telling.some((word) => !subject.has(word));
      const own = telling.filter((word) => !everyday.has(word) && !/\d/.test(word));
      return about.length > 0 ? says : own.length >= tellsByItself && !isShared(phrase);
    }),
  }));
  const hits = namedIn(part, things);
  const [named, ...others] = new Set(hits.map(({ id }) => id));
  if (named === undefined || others.length > 0) return undefined;
  const own = new Set(
    things.find(({ id }) => id === named)?.words.flatMap((phrase) => [...tellingStems(phrase)]),
  );
  return {
    finding: finding.id,
    choice: named,
    words: words.filter((word) => subject.has(word) || own.has(word)).length,
    shared,
  };
}

function phrasesOf({ choices }: Finding): string[] {
  return Object.values(choices).flatMap(({ say, also = [] }) => [say, ...also].map(normal));
}

/** The one check that a part of a description speaks of; nothing when two fit it equally well. */
function bestFit(fits: readonly Fit[]): Fit | undefined {
  const rank = (one: Fit, other: Fit) => other.words - one.words || other.shared - one.shared;
  const [best, next] = [...fits].sort(rank);
  return best && next && rank(best, next) === 0 ? undefined : best;
}

/** What the parts of a description say to the checks. A check that gets two different answers gets none. */
export function readFindings(findings: readonly Finding[], text: string): Found[] {
  const count = new Map<string, number>();
  for (const finding of findings)
    for (const phrase of new Set(phrasesOf(finding))) count.set(phrase, (count.get(phrase) ?? 0) + 1);
  const isShared = (phrase: string) => (count.get(normal(phrase)) ?? 0) > 1;
  const subjects = subjectsOf(findings);
  const read = clausesOf(text).flatMap((part) => {
    const fits = findings.flatMap(
      (finding) => fitOf(finding, subjects.get(finding.id) ?? nothing, part, isShared) ?? [],
    );
    return bestFit(fits) ?? [];
  });
  const isTold = ({ finding, choice }: Found) =>
    read.every((one) => one.finding !== finding || one.choice === choice);
  const clear = read.filter(isTold).map(({ finding, choice }) => ({ finding, choice }));
  return clear.filter((one, index) => clear.findIndex(({ finding }) => finding === one.finding) === index);
}
