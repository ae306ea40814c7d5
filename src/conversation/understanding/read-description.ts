import type { Found } from '../../diagnosis/trouble.ts';
import { readQuantity } from '../../quantity/read-quantity.ts';
import { bandOf } from '../../rulebook/bands.ts';
import type { Complaint, Diagnosis, Finding } from '../../rulebook/diagnosis-schema.ts';
import { type Named, normal } from './match-words.ts';
import { clausesOf } from './read-clauses.ts';
import { light, mendSlips, namedIn } from './read-phrases.ts';

/** What a description of a trouble says, as far as it is understood; all of it is said back before it counts. */
export interface Described {
  /** Complaints that fit, the likeliest first. */
  complaints: string[];
  found: Found[];
  stage?: string;
}

const nothing: ReadonlySet<string> = new Set();

function stem(word: string): string {
  return word.replace(/(?<=...)(iness|ness|ingly|ing|ed|ly|ies|es|s|y)$/, '');
}

function tellingStems(text: string): Set<string> {
  const words = normal(text).split(' ');
  return new Set(words.filter((word) => word.length > 2 && !light.has(word)).map(stem));
}

function namedThings(things: readonly { id: string; say: string; also?: string[] | undefined }[]): Named[] {
  return things.map(({ id, say, also = [] }) => ({ id, words: [say, ...also] }));
}

/** Complaints named in so many words: the one named in most words first, of equals the one named first. */
function namedComplaints(complaints: readonly Complaint[], text: string): string[] {
  const hits = namedIn(text, namedThings(complaints)).sort((one, other) => other.length - one.length);
  return [...new Set(hits.map(({ id }) => id))];
}

/** A share of the telling words that makes a complaint worth proposing, and the lead it needs over the next. */
const likeEnough = 0.5;
const clearLead = 1.3;

/** Complaints that use the rarer words of a description, where none is named outright. */
function similarComplaints(complaints: readonly Complaint[], text: string): string[] {
  const vocabularies = complaints.map(({ say, also }) => tellingStems([say, ...also].join(' ')));
  const rarity = (word: string) =>
    Math.log((1 + complaints.length) / (1 + vocabularies.filter((words) => words.has(word)).length));
  const typed = [...tellingStems(text)].filter((word) => vocabularies.some((words) => words.has(word)));
  const all = typed.reduce((sum, word) => sum + rarity(word), 0);
  if (all === 0) return [];
  const alike = complaints
    .map(({ id }, index) => {
      const shared = typed.filter((word) => vocabularies[index]?.has(word));
      return { id, score: shared.reduce((sum, word) => sum + rarity(word), 0) / all };
    })
    .filter(({ score }) => score >= likeEnough)
    .sort((one, other) => other.score - one.score);
  const [best, next] = alike;
  const leads = best !== undefined && best.score >= clearLead * (next?.score ?? 0);
  return leads ? alike.map(({ id }) => id) : [];
}

/** Words of so many stories that they say nothing of which check is meant. */
const everyday = new Set(
  [
    ...[
      'hour',
      'hours',
      'minute',
      'minutes',
      'day',
      'days',
      'month',
      'months',
      'time',
      'ppm',
      'litre',
      'litres',
    ],
    ...['oil', 'fuel', 'water', 'tank', 'jar', 'batch', 'test', 'tests', 'sample', 'bottom', 'top', 'drops'],
    ...[
      'made',
      'done',
      'used',
      'good',
      'first',
      'last',
      'before',
      'after',
      'again',
      'start',
      'trouble',
      'left',
    ],
    ...['one', 'two', 'three', 'four', 'five', 'six', 'ten', 'twelve', 'twenty', 'thirty', 'half', 'quarter'],
    ...[
      'easy',
      'easily',
      'fine',
      'clean',
      'clear',
      'same',
      'whole',
      'more',
      'less',
      'nothing',
      'much',
      'many',
    ],
    ...[
      'run',
      'ran',
      'stand',
      'stood',
      'open',
      'opened',
      'warm',
      'hot',
      'cold',
      'washed',
      'new',
      'still',
      'always',
    ],
  ].map(stem),
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
  /** How many telling words of the part speak for it. */
  words: number;
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
  const measured = about.length > 0 ? readingOf(finding, part) : undefined;
  // A reading with its unit says more than a word.
  if (measured) return { finding: finding.id, choice: measured, words: about.length + 2 };
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
  };
}

function phrasesOf({ choices }: Finding): string[] {
  return Object.values(choices).flatMap(({ say, also = [] }) => [say, ...also].map(normal));
}

/** The one check that a part of a description speaks of; nothing when two fit it equally well. */
function bestFit(fits: readonly Fit[]): Fit | undefined {
  const most = Math.max(0, ...fits.map(({ words }) => words));
  const [best, ...equal] = fits.filter(({ words }) => words === most);
  return equal.length === 0 ? best : undefined;
}

/** What the parts of a description say to the checks. A check that gets two different answers gets none. */
function readFindings(findings: readonly Finding[], text: string): Found[] {
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

/** Reads a description in plain words for the complaint, for what it says to the checks, and for the stage. */
export function readDescription(diagnosis: Diagnosis, text: string): Described {
  const { complaints, findings, weighing } = diagnosis;
  const mended = mendSlips(text, namedThings(complaints), nothing);
  const named = namedComplaints(complaints, text);
  const slipped = named.length > 0 ? named : namedComplaints(complaints, mended);
  const stages = [...new Set(namedIn(text, namedThings(weighing.stages)).map(({ id }) => id))];
  const [stage] = stages;
  return {
    complaints: slipped.length > 0 ? slipped : similarComplaints(complaints, mended),
    found: readFindings(findings, text),
    ...(stages.length === 1 && stage !== undefined ? { stage } : {}),
  };
}
