import type { Found } from '../../diagnosis/trouble.ts';
import type { Complaint, Diagnosis } from '../../rulebook/diagnosis-schema.ts';
import type { Named } from './match-words.ts';
import { readFindings } from './read-findings.ts';
import { mendSlips, namedIn } from './read-phrases.ts';
import { tellingStems } from './telling-stems.ts';

/** What a description of a trouble says, as far as it is understood; all of it is said back before it counts. */
export interface Described {
  /** Complaints that fit, the likeliest first. */
  complaints: string[];
  found: Found[];
  stage?: string;
}

const nothing: ReadonlySet<string> = new Set();

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
