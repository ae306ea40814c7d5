import type { EventBody } from '../conversation/events.ts';
import type { State } from '../conversation/state.ts';
import type { Step } from '../conversation/step.ts';
import { Chain, type Link } from './chain.ts';
import { checkLine, type Problem } from './check-line.ts';
import { type FileLine, fileLines } from './file-lines.ts';
import type { JournalRecord } from './record-schema.ts';
import { mostRetold, Retelling } from './retell.ts';

export type DoubtKind = 'empty' | 'torn-end' | 'clock-back' | 'long';

/** Nothing that was changed, yet something to know before relying on the journal. */
export interface Doubt {
  kind: DoubtKind;
  line?: number;
  says: string;
}

export interface Signature {
  line: number;
  at: string;
  mentor: string;
  verdict: string;
  /** Fingerprint of the signing line itself: everything up to the signature. */
  hash: string;
}

export interface Verified {
  file: string;
  verdict: 'good' | 'doubtful' | 'bad';
  /** Whole records in order, up to the end or the first bad line. */
  records: number;
  /** Versions that the lines were written in. */
  versions: number[];
  batch?: string;
  /** The rules that the talk went by at last. */
  rules?: string;
  first?: string;
  last?: string;
  /** Fingerprint of the last line; nothing when something is wrong. */
  head?: string;
  /** The line that has the fingerprint which was asked for. */
  headLine?: number;
  problem?: Problem;
  doubts: Doubt[];
  /** Reviews that signed it, and the last of them. */
  signatures: number;
  signed?: Signature;
  /** Records that were gone through again, and how the batch ended if these were all. */
  retold: number;
  ended?: State['ended'];
}

interface Turnback {
  line: number;
  times: number;
  most: number;
}

const minutesBetween = (earlier: string, later: string) => (Date.parse(later) - Date.parse(earlier)) / 60_000;

/** All that is remembered while the lines of one journal go by. */
class Verifying {
  readonly chain = new Chain();
  readonly told: Verified;
  private readonly retelling: Retelling;
  private readonly wanted: string | undefined;
  private turnback: Turnback | undefined;

  constructor(file: string, step: Step, wanted: string | undefined) {
    this.told = { file, verdict: 'good', records: 0, versions: [], doubts: [], signatures: 0, retold: 0 };
    this.retelling = new Retelling(step);
    this.wanted = wanted;
  }

  take(link: Link & { record: JournalRecord }, version: number): void {
    const { record } = link;
    const { told, chain } = this;
    chain.take(link);
    if (this.wanted !== undefined && chain.head.startsWith(this.wanted)) told.headLine = chain.length;
    if (!told.versions.includes(version)) told.versions.push(version);
    this.takeTime(record.at);
    this.takeEvent(record.event, record.at);
    this.retelling.take(record);
  }

  private takeTime(at: string): void {
    const { told } = this;
    told.first ??= at;
    const back = told.last === undefined ? 0 : minutesBetween(at, told.last);
    told.last = at;
    if (back <= 0) return;
    const { line, times, most } = this.turnback ?? { line: this.chain.length, times: 0, most: 0 };
    this.turnback = { line, times: times + 1, most: Math.max(most, back) };
  }

  private takeEvent(event: EventBody, at: string): void {
    const { told, chain } = this;
    if (event.type === 'BatchOpened') told.batch = event.batch;
    if ('rules' in event && event.type !== 'ReviewOpened') told.rules = event.rules;
    if (event.type !== 'ReviewSigned') return;
    told.signatures += 1;
    told.signed = { line: chain.length, at, mentor: event.mentor, verdict: event.verdict, hash: chain.head };
  }

  private notTheSame(): Problem | undefined {
    if (this.wanted === undefined || this.told.headLine !== undefined) return undefined;
    return { kind: 'not-the-same', says: `no line of it has the fingerprint ${this.wanted}` };
  }

  finish(problem: Problem | undefined, tornBytes = 0): Verified {
    const { told, chain, retelling } = this;
    told.records = chain.length;
    told.retold = retelling.records;
    const wrong = problem ?? this.notTheSame() ?? retelling.problem;
    told.doubts = this.doubts(tornBytes, wrong !== undefined);
    if (wrong) return { ...told, verdict: 'bad', problem: wrong };
    const verdict = told.doubts.some(({ kind }) => kind !== 'long') ? 'doubtful' : 'good';
    const whole = retelling.records === chain.length;
    const ended = retelling.ended === undefined || !whole ? {} : { ended: retelling.ended };
    return { ...told, verdict, head: chain.head, ...ended };
  }

  private doubts(tornBytes: number, wrong: boolean): Doubt[] {
    const { chain, turnback } = this;
    const doubts: Doubt[] = [];
    if (turnback) {
      const { line, times, most } = turnback;
      const again = times === 1 ? '' : times === 2 ? ', and once more' : `, and ${times - 1} more times`;
      const says = `the clock went back here by up to ${showBack(most)}${again}; waits are not certain`;
      doubts.push({ kind: 'clock-back', line, says });
    }
    if (tornBytes > 0) {
      const says = `${tornBytes} bytes of a line that is not whole (a power cut, a full disk)`;
      doubts.push({ kind: 'torn-end', line: chain.length + 1, says });
    }
    if (chain.length === 0 && !wrong) doubts.push({ kind: 'empty', says: 'it holds no whole record' });
    if (chain.length > mostRetold) {
      const says = `only the first ${mostRetold} records were gone through again as a talk`;
      doubts.push({ kind: 'long', says });
    }
    return doubts;
  }
}

function showBack(minutes: number): string {
  return minutes < 1 ? `${Math.ceil(minutes * 60)} s` : `${Math.ceil(minutes)} min`;
}

function linkOf(line: FileLine | undefined): Link | undefined {
  if (line?.text === undefined) return undefined;
  const checked = checkLine(line);
  return 'record' in checked ? { text: line.text, record: checked.record } : undefined;
}

function verifyLines(verifying: Verifying, lines: Iterator<FileLine>): Verified {
  for (let next = lines.next(); !next.done; next = lines.next()) {
    const line = next.value;
    if (line.end === 'file') return verifying.finish(undefined, line.bytes);
    const checked = checkLine(line);
    const number = verifying.chain.length + 1;
    if ('kind' in checked) return verifying.finish({ ...checked, line: number });
    const link = { text: line.text ?? '', record: checked.record };
    if (!verifying.chain.fits(link)) {
      const after = linkOf(lines.next().value ?? undefined);
      return verifying.finish(verifying.chain.breakAt(link, after));
    }
    verifying.take(link, checked.version);
  }
  return verifying.finish(undefined);
}

/**
 * Checks one journal: the form of every record, numbers, chain, times, the end, and that the talk can be followed again.
 * Stops at the first bad line. Memory does not grow with the file.
 * @param wanted  a fingerprint written down earlier, or its beginning: some line must have it
 */
export function verifyJournal(file: string, step: Step, wanted?: string): Verified {
  const verifying = new Verifying(file, step, wanted);
  const lines = fileLines(file);
  try {
    return verifyLines(verifying, lines);
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    return verifying.finish({ kind: 'unreadable', says: message });
  } finally {
    lines.return();
  }
}
