import type { Condition } from '../../src/rulebook/condition.ts';
import type {
  Cause,
  Complaint,
  Diagnosis,
  Finding,
  Gate,
  LikelihoodWord,
  Weighing,
} from '../../src/rulebook/diagnosis-schema.ts';

type Words = Record<string, Record<string, LikelihoodWord>>;

/** Only what the arithmetic looks at; the rest of each entry is filled in. */
export interface Sketch {
  /** By cause: what it makes likely, and its odds by stage where they are not 1 everywhere. */
  causes: Record<string, { likely?: Words; odds?: Record<string, number> }>;
  /** By check: the share of each choice, and what differs from a free, safe minute's look. */
  findings: Record<
    string,
    { shares: Record<string, number>; log?: Record<string, Condition> } & Partial<Finding>
  >;
  complaints?: Record<string, Partial<Complaint>>;
  gates?: Gate[];
  weighing?: Partial<Weighing>;
}

const some = 'some words';
const spoken = { ask: some, how: some };

const weighing: Weighing = {
  words: { 'almost-always': 0.95, often: 0.7, sometimes: 0.35, rarely: 0.08 },
  most: 0.98,
  fit: { core: 1, possible: 0.3, other: 0.03 },
  'group-power': 0.5,
  risk: { none: 0, some: 0.25, much: 0.75 },
  settled: 0.85,
  'worth-asking': 0.05,
  'two-causes': { under: 0.5, after: 5 },
  stages: [
    { id: 'early', say: 'early on', talk: [] },
    { id: 'late', say: 'late', talk: [] },
  ],
  groups: [],
  source: 'common-practice',
};

function finding(id: string, { shares, log = {}, ...own }: Sketch['findings'][string]): Finding {
  const choices = Object.entries(shares).map(([choice, share]) => [
    choice,
    { say: choice, share, ...(log[choice] ? { log: log[choice] } : {}) },
  ]);
  const plain = { ...spoken, where: ['early', 'late'], minutes: 1, money: 0, risk: 'none' as const };
  return { id, ...plain, choices: Object.fromEntries(choices), ...own };
}

function cause(id: string, { likely = {}, odds = { early: 1, late: 1 } }: Sketch['causes'][string]): Cause {
  const told = {
    name: id,
    say: some,
    because: some,
    proof: some,
    cure: some,
    prevent: some,
    danger: some,
    log: some,
  };
  return { id, ...told, source: 'common-practice', odds, likely };
}

/** An invented diagnosis, small enough to be worked out on paper. */
export function sketch({
  causes,
  findings,
  complaints = {},
  gates = [],
  weighing: own = {},
}: Sketch): Diagnosis {
  const complaint = (id: string, said: Partial<Complaint>): Complaint => ({
    id,
    say: some,
    also: [some],
    stages: ['early'],
    core: Object.keys(causes),
    possible: [],
    ...said,
  });
  return {
    causes: Object.entries(causes).map(([id, one]) => cause(id, one)),
    findings: Object.entries(findings).map(([id, one]) => finding(id, one)),
    complaints: Object.entries(complaints).map(([id, one]) => complaint(id, one)),
    gates,
    talk: { stage: spoken, words: spoken, complaint: spoken, right: spoken, next: spoken },
    weighing: { ...weighing, ...own },
  };
}
