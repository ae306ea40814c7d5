import { scaleLinear } from 'd3-scale';
import {
  line,
  symbol,
  symbolCircle,
  symbolCross,
  symbolDiamond,
  symbolSquare,
  symbolTriangle,
  symbolWye,
} from 'd3-shape';
import { convert } from '../../quantity/units.ts';
import type { Mark, MarkKind, Panel, Reading } from '../curve.ts';
import { showLength, showTime } from '../show-time.ts';
import { type TimeAxis, timeAxis } from './time-axis.ts';

const size = { width: 360, height: 250 };
const plot = { left: 38, right: 322, top: 58, bottom: 206 };
/** Room for the numbers at the last point. */
const timeSpan = [plot.left + 6, plot.right - 26] as const;
const lanes = [9, 22, 35, 48];
const closestMarks = 19;
const closestLabels = 26;
/** Fewer degrees than this from bottom to top would make much of nothing. */
const leastSpan = 20;

const shapes = {
  heat: symbolTriangle,
  charge: symbolDiamond,
  draw: symbolSquare,
  test: symbolWye,
  stop: symbolCross,
  cleared: symbolCircle,
} as const;

export function markPath(kind: MarkKind, area = 60): string {
  return symbol(shapes[kind], area)() ?? '';
}

type Y = (celsius: number) => number;

/** From the coldest to the hottest with its ±, in whole tens. */
function heightOf({ readings, line: extra }: Panel): { y: Y; ticks: number[] } {
  const all = readings.flatMap(({ value, plusMinus }) => [value - plusMinus, value + plusMinus]);
  const [low, high] = [Math.min(...all), Math.max(...all, extra?.value ?? Number.NEGATIVE_INFINITY)];
  const spare = Math.max(0, leastSpan - (high - low)) / 2;
  const y = scaleLinear<number, number>()
    .domain([low - spare, high + spare])
    .nice(5)
    .range([plot.bottom, plot.top]);
  return { y, ticks: y.ticks(5) };
}

function Temperatures({ y, ticks }: { y: Y; ticks: number[] }) {
  return (
    <g className="axis">
      {ticks.map((celsius) => (
        <g key={celsius}>
          <line className="grid" x1={plot.left} x2={plot.right} y1={y(celsius)} y2={y(celsius)} />
          <text x={plot.left - 4} y={y(celsius) + 4} textAnchor="end">
            {celsius}
          </text>
          <text x={plot.right + 4} y={y(celsius) + 4}>
            {Math.round(convert(celsius, 'degC', 'degF'))}
          </text>
        </g>
      ))}
      <text x={2} y={plot.top - 8}>
        °C
      </text>
      <text x={size.width - 2} y={plot.top - 8} textAnchor="end">
        °F
      </text>
    </g>
  );
}

function Times({ axis }: { axis: TimeAxis }) {
  return (
    <g className="axis">
      <line className="frame" x1={plot.left} x2={plot.right} y1={plot.bottom} y2={plot.bottom} />
      {axis.ticks.map(({ x, time, day }) => (
        <g key={x}>
          <line className="frame" x1={x} x2={x} y1={plot.bottom} y2={plot.bottom + 4} />
          <text x={x} y={plot.bottom + 16} textAnchor="middle">
            {time}
          </text>
          {day === undefined ? null : (
            <text x={x} y={plot.bottom + 28} textAnchor="middle">
              {day.slice(5)}
            </text>
          )}
        </g>
      ))}
      {axis.breaks.map(({ x, minutes }) => (
        <g key={x}>
          <path className="frame" d={`M${x - 5} ${plot.bottom + 5}l4 -10m3 10l4 -10`} />
          <text className="small" x={x} y={plot.bottom - 9} textAnchor="middle">
            {showLength(minutes)}
          </text>
        </g>
      ))}
      <text x={(plot.left + plot.right) / 2} y={size.height - 4} textAnchor="middle">
        time of day (UTC), month-day below it
      </text>
    </g>
  );
}

/** The ends and the extremes say most, so they are labelled first. */
function byWeight(readings: readonly Reading[]): Reading[] {
  const sorted = [...readings].sort((one, other) => other.value - one.value);
  const first = [readings[0], readings.at(-1), sorted[0], sorted.at(-1)];
  return [...new Set([...first.filter((one) => one !== undefined), ...readings])];
}

/** Numbers beside the points, unless two would lie on each other. */
function labelled(readings: readonly Reading[], axis: TimeAxis, y: Y): ReadonlySet<Reading> {
  const kept: Reading[] = [];
  for (const one of byWeight(readings)) {
    const isNear = (other: Reading) =>
      Math.abs(axis.x(one.at) - axis.x(other.at)) < closestLabels &&
      Math.abs(y(one.value) - y(other.value)) < 14;
    if (!kept.some(isNear)) kept.push(one);
  }
  return new Set(kept);
}

function Readings({ panel, axis, y }: { panel: Panel; axis: TimeAxis; y: Y }) {
  const { readings } = panel;
  const path = line<Reading>()
    .x((one) => axis.x(one.at))
    .y((one) => y(one.value));
  const kept = labelled(readings, axis, y);
  return (
    <g>
      {readings.slice(1).map((to, index) => {
        const from = readings[index] ?? to;
        const way = axis.isBroken(from.at, to.at) ? 'curve broken' : 'curve';
        return <path key={to.record} className={way} d={path([from, to]) ?? ''} />;
      })}
      {readings.map((one) => {
        const x = axis.x(one.at);
        return (
          <g key={one.record}>
            <path
              className="whisker"
              d={`M${x} ${y(one.value - one.plusMinus)}V${y(one.value + one.plusMinus)}`}
            />
            <circle className="point" cx={x} cy={y(one.value)} r={3.2} />
            {kept.has(one) ? (
              <text className="value" x={x + 5} y={y(one.value) - 5}>
                {Math.round(one.value)}°
              </text>
            ) : null}
          </g>
        );
      })}
    </g>
  );
}

/** Each mark in the first lane that has room for it. */
function lanesOf(marks: readonly Mark[], axis: TimeAxis): number[] {
  const lastIn = lanes.map(() => Number.NEGATIVE_INFINITY);
  return marks.map((mark) => {
    const x = axis.x(mark.at);
    const free = lastIn.findIndex((last) => x - last >= closestMarks);
    const lane = free >= 0 ? free : lastIn.indexOf(Math.min(...lastIn));
    lastIn[lane] = x;
    return lane;
  });
}

function Marks({ marks, axis }: { marks: readonly Mark[]; axis: TimeAxis }) {
  const places = lanesOf(marks, axis);
  return (
    <g>
      {marks.map((mark, index) => {
        const [x, top] = [axis.x(mark.at), lanes[places[index] ?? 0] ?? 0];
        return (
          <g key={`${mark.record} ${mark.kind}`}>
            <line className="drop" x1={x} x2={x} y1={top} y2={plot.bottom} />
            <path
              className={mark.kind === 'cleared' ? 'hollow' : 'full'}
              d={markPath(mark.kind, 46)}
              transform={`translate(${x} ${top})`}
            />
            <text className="small" x={x + 6} y={top + 3.5}>
              {index + 1}
            </text>
          </g>
        );
      })}
    </g>
  );
}

/** What the picture shows, for those who hear it. */
function inWords({ readings, marks }: Panel): string {
  const [first, last] = [readings[0], readings.at(-1)];
  if (!first || !last) return '';
  const hottest = readings.reduce((most, one) => (one.value > most.value ? one : most));
  return `${readings.length} readings from ${showTime(first.at)} to ${showTime(last.at)} UTC, the hottest ${hottest.says}; ${marks.length} events. All of them are in the table below.`;
}

export function Curve({ panel, id }: { panel: Panel; id: string }) {
  const axis = timeAxis(
    [...panel.readings, ...panel.marks].map(({ at }) => at),
    timeSpan,
  );
  const { y, ticks } = heightOf(panel);
  return (
    <svg viewBox={`0 0 ${size.width} ${size.height}`} role="img" aria-labelledby={`${id}-t ${id}-d`}>
      <title id={`${id}-t`}>{`${panel.title}: temperature against time`}</title>
      <desc id={`${id}-d`}>{inWords(panel)}</desc>
      <Temperatures y={y} ticks={ticks} />
      <Times axis={axis} />
      {panel.line ? (
        <line
          className="boiling"
          x1={plot.left}
          x2={plot.right}
          y1={y(panel.line.value)}
          y2={y(panel.line.value)}
        />
      ) : null}
      <Marks marks={panel.marks} axis={axis} />
      <Readings panel={panel} axis={axis} y={y} />
    </svg>
  );
}
