import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { EventBody } from '../../src/conversation/events.ts';
import { lineHash } from '../../src/journal/line-hash.ts';
import { noHash, recordVersion } from '../../src/journal/record-format.ts';
import { type Random, seeded } from '../random.ts';

const demos = new URL('../../transcripts-demo/', import.meta.url);
const batches = [
  'clean-first-batch',
  'wet-oil-dried-twice',
  'high-acid-blended',
  'failed-conversion-second-stage',
  'abandoned-and-resumed',
];
const recordsWanted = 300;
const firstDay = Date.UTC(2020, 0, 6, 6);
const hourMs = 3_600_000;

/** Figures that are made different in every log, with how widely they scatter. */
const scattered: Record<string, number> = {
  'titrant-koh-equivalent': 0.25,
  'soap-crude': 0.3,
  'soap-final': 0.3,
  'soap-finished': 0.3,
  yield: 0.01,
};
const sources = ['fryer-veg', 'fryer-fat', 'mixed-unknown'];

interface Piece {
  afterMs: number;
  /** The event as text; made anew for every log where it scatters. */
  text: (random: Random) => string;
  needed: boolean;
}

function isScattered(event: EventBody): boolean {
  if (event.type === 'WaitEnded') return true;
  if (event.type === 'AnswerGiven') return event.question === 'feed-source';
  return (
    event.type === 'RulesEvaluated' && Object.keys(event.outcome.figures).some((fact) => fact in scattered)
  );
}

/** The sum of three even numbers is near enough to a bell for this. */
const bell = (random: Random) => (random() + random() + random() - 1.5) * 2;

function scatter(event: EventBody, random: Random): EventBody {
  if (event.type === 'AnswerGiven') {
    const choice = sources[Math.floor(random() * sources.length)] ?? '';
    return { ...event, answer: { kind: 'choice', choice } };
  }
  if (event.type === 'WaitEnded' && random() < 0.1)
    return { ...event, how: 'early', waitedMinutes: event.waitedMinutes * random() };
  if (event.type !== 'RulesEvaluated') return event;
  const figures = Object.entries(event.outcome.figures).map(([fact, figure]) => {
    const spread = scattered[fact];
    const factor = spread === undefined ? 1 : 1 + spread * bell(random);
    return [fact, { ...figure, value: figure.value * factor }];
  });
  return { ...event, outcome: { ...event.outcome, figures: Object.fromEntries(figures) } };
}

const kept = [
  'maker',
  'experience',
  'oil-id',
  'decision-taken',
  'conv-test',
  'dropout-ml',
  'charge-minutes',
  'interface-draw',
];

function piecesOf(batch: string): Piece[] {
  const lines = readFileSync(new URL(`${batch}.ndjson`, demos), 'utf8')
    .trim()
    .split('\n');
  const records = lines.map((line) => JSON.parse(line) as { at: string; event: EventBody });
  const begun = Date.parse(records[0]?.at ?? '');
  let stage = '';
  const pieces = records.map(({ at, event }): Piece => {
    const changesStage = event.type === 'RulesEvaluated' && event.stage !== stage;
    if (event.type === 'RulesEvaluated') stage = event.stage;
    const fixed = JSON.stringify(event);
    const varies = isScattered(event);
    const asked =
      event.type === 'AnswerGiven' && (kept.includes(event.question) || event.answer.kind === 'not-sure');
    const rare = !['AnswerGiven', 'RulesEvaluated'].includes(event.type);
    return {
      afterMs: Date.parse(at) - begun,
      text: varies ? (random) => JSON.stringify(scatter(event, random)) : () => fixed,
      needed: varies || changesStage || asked || rare || stage === 'close',
    };
  });
  return thinned(pieces);
}

/** About as many records as a batch in a hurry has: what is needed, and of the rest every so many. */
function thinned(pieces: readonly Piece[]): Piece[] {
  const needed = pieces.filter((piece) => piece.needed).length;
  const share = (recordsWanted - needed) / (pieces.length - needed);
  let due = 0;
  return pieces.filter((piece) => {
    if (piece.needed) return true;
    due += share;
    if (due < 1) return false;
    due -= 1;
    return true;
  });
}

function logText(pieces: readonly Piece[], name: string, begun: number, random: Random): string {
  let prev = noHash;
  const lines = pieces.map(({ afterMs, text }, index) => {
    const at = new Date(begun + afterMs).toISOString();
    const event = index === 0 ? JSON.stringify({ ...JSON.parse(text(random)), batch: name }) : text(random);
    const line = `{"v":${recordVersion},"seq":${index + 1},"at":"${at}","prev":"${prev}","event":${event}}`;
    prev = lineHash(line);
    return line;
  });
  return `${lines.join('\n')}\n`;
}

/**
 * Writes journals of an invented programme into a folder: records, times and hash chain as in the demo batches, thinned
 * to about 300 records each, with figures that scatter. Their talk is thinned too, so they count but do not fold.
 */
export function generateLogs(
  folder: string,
  count: number,
  seed: number,
): { records: number; bytes: number } {
  mkdirSync(folder, { recursive: true });
  const random = seeded(seed);
  const kinds = batches.map(piecesOf);
  let records = 0;
  let bytes = 0;
  for (let index = 0; index < count; index += 1) {
    const pieces = kinds[Math.floor(random() * kinds.length)] ?? [];
    const begun = firstDay + index * 5 * hourMs + Math.floor(random() * 4 * hourMs);
    const name = `${new Date(begun).toISOString().slice(0, 10)}-${String(index + 1).padStart(5, '0')}`;
    const text = logText(pieces, name, begun, random);
    writeFileSync(join(folder, `${name}.ndjson`), text);
    records += pieces.length;
    bytes += Buffer.byteLength(text);
  }
  return { records, bytes };
}
