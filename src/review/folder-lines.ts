import { safeLine } from '../conversation/safe-text.ts';
import { type BatchRow, type Measure, measured } from './batch-row.ts';
import { verdictWords } from './review-questions.ts';
import { enoughForLimits, fewestForLimits, type Trend, type TrendPoint } from './trends.ts';

/** Every line fits a window of this many columns. */
const width = 80;
const longestStages = 3;

/** A verdict of a newer program is shown as it stands. */
const verdictInWords = (verdict: string): string =>
  Object.entries(verdictWords).find(([id]) => id === verdict)?.[1] ?? verdict;
/** Marks shown of one kind in one trend, the newest; all of them are in `--json`. */
const mostMarks = 5;

export type FindingCounts = Readonly<Record<string, number>>;

/** Widths of the columns of the table; those of numbers, which end at the right, are negative. */
const columns = [22, 10, 12, -6, -6, -6, -6, -5] as const;

function cells(texts: readonly string[]): string {
  const padded = texts.map((text, index) => {
    const size = columns[index] ?? 0;
    const most = Math.abs(size);
    const letters = [...text];
    const cut = letters.length > most ? `${letters.slice(0, most - 1).join('')}~` : text;
    return size > 0 ? cut.padEnd(most) : cut.padStart(most);
  });
  return padded.join(' ').trimEnd();
}

/** Breaks a line at its spaces; what comes after the first line is set in. */
export function wrapped(text: string, indent: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const begun = line === '' ? '' : `${line} `;
    if (line !== '' && indent.length + begun.length + word.length > width) {
      lines.push(indent + line);
      line = `  ${word}`;
    } else line = begun + word;
  }
  // A word without an end, from a log that somebody made by hand, is cut into pieces.
  return [...lines, indent + line].flatMap((one) => one.match(new RegExp(`.{1,${width}}`, 'gu')) ?? []);
}

function valueText(row: BatchRow, measure: Measure): string {
  const value = row.values[measure];
  return value === undefined ? '-' : value.toFixed(measured[measure].places);
}

function hoursText(hours: number): string {
  return hours < 1 ? `${Math.round(hours * 60)} min` : `${hours.toFixed(hours < 10 ? 1 : 0)} h`;
}

export const tableHead: readonly string[] = [
  cells(['Batch', 'begun', 'ended', 'titr.', 'drop', 'soap', 'yield', 'days']),
  cells(['', '', '', 'mL', 'mL', 'ppm', '%', '']),
];

function countsText(row: BatchRow): string[] {
  const many = (count: number, one: string, more: string) =>
    count === 0 ? [] : [`${count} ${count === 1 ? one : more}`];
  return [
    ...many(row.waitsCutShort, 'wait cut short', 'waits cut short'),
    ...many(row.notSure, 'answer "not sure"', 'answers "not sure"'),
    ...many(row.changes, 'answer changed', 'answers changed'),
    ...many(row.troubles, 'trouble reported', 'troubles reported'),
  ];
}

function findingsText(findings: FindingCounts): string {
  const counted = Object.entries(findings).filter(([, count]) => count > 0);
  if (counted.length === 0) return 'Findings: none.';
  return `Findings: ${counted.map(([signal, count]) => `${count} ${signal}`).join(', ')}.`;
}

/** One batch of the table: a line of figures, and below it who, where the hours went and what was out of the way. */
export function batchLines(row: BatchRow, name: string, findings?: FindingCounts): string[] {
  const days = (Date.parse(row.last) - Date.parse(row.opened)) / 86_400_000;
  const figures = (['titration', 'dropout', 'soap', 'yield'] as const).map((measure) =>
    valueText(row, measure),
  );
  const shownDays = Number.isFinite(days) ? days.toFixed(1) : '-';
  const longest = [...row.stages].sort((one, other) => other.hours - one.hours).slice(0, longestStages);
  const times = longest.map(({ stage, hours }) => `${safeLine(stage)} ${hoursText(hours)}`);
  const held = row.held.length === 0 ? '' : `; not cleared: ${row.held.map(safeLine).join(', ')}`;
  const rest = [
    row.maker === undefined ? '' : `By ${safeLine(row.maker)}.`,
    row.experience === undefined ? '' : `Experience: ${safeLine(row.experience)}.`,
    row.decision === 'reject' ? 'The oil was turned down.' : '',
    row.ended === 'unfinished' ? `Stands in ${safeLine(row.stage)}.` : '',
    times.length === 0 ? '' : `Longest: ${times.join(', ')}.`,
    row.stops.length === 0 ? '' : `Stops: ${row.stops.map(safeLine).join(', ')}${held}.`,
    countsText(row).length === 0 ? '' : `${countsText(row).join(', ')}.`,
    findings ? findingsText(findings) : '',
    row.verdict === undefined ? '' : `Review: ${safeLine(verdictInWords(row.verdict))}.`,
  ].filter((text) => text !== '');
  const head = [safeLine(name), safeLine(row.opened.slice(0, 10)), row.ended, ...figures, shownDays];
  return [cells(head), ...rest.flatMap((text) => wrapped(text, '  '))];
}

const nameOf = ({ title, unit }: Trend) => (unit === 'h' ? `time in ${title}` : title);

function numberText(trend: Trend, value: number): string {
  return value.toFixed(trend.places);
}

const dated = ({ batch, opened }: TrendPoint) => `${safeLine(batch)} (${opened.slice(0, 10)})`;

function newest<T>(marks: readonly T[], inWords: (mark: T) => string): string[] {
  const left = marks.length - mostMarks;
  const more = left > 0 ? [`and ${left} earlier`] : [];
  return [...marks.slice(-mostMarks).reverse().map(inWords), ...more];
}

/** What a trend shows that chance alone seldom does, in words. */
function markLines(trend: Trend): string[] {
  const { outside, runs, jumps, unit } = trend;
  const value = (point: TrendPoint) => `${dated(point)} ${numberText(trend, point.value)} ${unit}`;
  const limit = (side: string) => (side === 'above' ? 'above the upper limit' : 'below the lower limit');
  const name = nameOf(trend);
  const said = [
    outside.length === 0
      ? ''
      : `outside the limits: ${newest(outside, (one) => `${value(one)}, ${limit(one.side)}`).join('; ')}`,
    runs.length === 0
      ? ''
      : `a drift: ${newest(runs, ({ count, side, first, last }) => `${count} in a row ${side} the centre, ${dated(first)} to ${dated(last)}`).join('; ')}`,
    jumps.length === 0
      ? ''
      : `a jump from one batch to the next: ${newest(jumps, (one) => `${value(one)}, from ${numberText(trend, one.from)} ${unit}`).join('; ')}`,
  ].filter((text) => text !== '');
  return said.flatMap((text) => wrapped(`${name}, ${text}.`, '  '));
}

function trendCells(texts: readonly string[]): string {
  const sizes = [26, 8, 9, 9, 9, 9];
  return texts
    .map((text, index) => (index === 0 ? text.padEnd(26) : text.padStart(sizes[index] ?? 9)))
    .join(' ')
    .trimEnd();
}

function trendRow(trend: Trend): string {
  const { limits, last } = trend;
  const show = (value: number | undefined) => (value === undefined ? '-' : numberText(trend, value));
  return trendCells([
    `${nameOf(trend)}, ${trend.unit}`,
    String(trend.count),
    show(limits?.centre),
    show(limits?.lower),
    show(limits?.upper),
    show(last),
  ]);
}

/** The trends as a table and, below it, what is out of the way in words. */
export function trendLines(trends: readonly Trend[]): string[] {
  if (trends.length === 0) return [];
  const most = Math.max(...trends.map(({ count }) => count));
  const marks = trends.flatMap(markLines);
  const rough =
    most < fewestForLimits
      ? [`Limits are drawn from ${fewestForLimits} batches on.`]
      : most < enoughForLimits
        ? [`Limits from fewer than ${enoughForLimits} batches are rough.`]
        : [];
  const none = most < fewestForLimits ? [] : ['Nothing is outside its limits, and nothing drifts.'];
  return [
    '',
    'Trends, batches by date (times by the clock, nights and pauses included)',
    trendCells(['', 'batches', 'centre', 'lower', 'upper', 'newest']),
    ...trends.map(trendRow),
    '',
    ...(marks.length > 0 ? marks : none),
    ...rough,
    ...(most < fewestForLimits
      ? []
      : wrapped(
          'Limits say what is usual here, not what is safe or good. A mark is a reason to look, no proof.',
          '',
        )),
  ];
}
