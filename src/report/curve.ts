import { keptByMaker } from '../review/given.ts';
import type { AnswerTold, Place, StageTold } from '../review/story.ts';
import { isSameVisit, visitsThatCount } from '../review/visits.ts';
import { answered, figureInWords, rowName, type Told, visitTitle } from './naming.ts';
import { type Entry, type Section, whenColumns } from './section.ts';

/** Temperatures asked for in a stage with a vessel that are not those of what is in it. */
export const notOfTheVessel: readonly string[] = [
  'conv-temperature',
  'second-mix-temperature',
  'pair-outside',
  'pair-inside',
  'haze-temperature',
  'cloud-point',
  'lab-flash-point',
  'expected-low',
];

export const markKinds = {
  heat: 'heater',
  charge: 'charge',
  draw: 'draw from the bottom',
  test: 'jar or pan test',
  stop: 'stop held',
  cleared: 'stop cleared',
} as const;
export type MarkKind = keyof typeof markKinds;

/** Answers that mark a moment on the curve. */
export const markedAnswers: Readonly<Record<string, readonly [kind: MarkKind, says: string]>> = {
  'heater-behaviour': ['heat', 'heater on'],
  'heat-behaviour': ['heat', 'heating to dry'],
  'heating-ended': ['heat', 'heater off for good, by the clock'],
  'heater-off': ['heat', 'reactor heater'],
  'flash-behaviour': ['heat', 'heating for the flash'],
  'dry-behaviour': ['heat', 'heating the fuel'],
  'charge-order': ['charge', 'first portion mixed'],
  'charge-minutes': ['charge', 'charge took'],
  'methoxide-delivered': ['charge', 'charge'],
  'second-dose-in': ['charge', 'second dose'],
  'acid-added': ['charge', 'acid given'],
  'drain-look': ['draw', 'bottom drain'],
  'drain-second': ['draw', 'bottom drain again'],
  'draw-check': ['draw', 'draw'],
  'interface-draw': ['draw', 'draw ended'],
  'flash-draw': ['draw', 'draw after the flash'],
  'dry-drain': ['draw', 'bottom drain'],
  'acid-layer-drawn': ['draw', 'acid layer drawn'],
  'conv-test': ['test', 'methanol jar'],
};

export interface Reading extends Place {
  label: string;
  value: number;
  plusMinus: number;
  says: string;
}

export interface Mark extends Place {
  kind: MarkKind;
  says: string;
}

/** One vessel for one stretch of the work; the temperatures are in °C. */
export interface Panel {
  title: string;
  stages: string[];
  readings: Reading[];
  marks: Mark[];
  /** A temperature worth knowing beside the curve. */
  line?: { value: number; says: string };
}

interface InVessel {
  vessel: string;
  visit: StageTold;
}

function visitsInVessels({ book, story }: Told): InVessel[] {
  return visitsThatCount(story).flatMap((visit) => {
    const vessel = book.stages.find(({ stage }) => stage === visit.stage)?.vessel;
    return vessel ? [{ vessel, visit }] : [];
  });
}

/** Where an answer stands on a curve: what was put right later was read when the question was answered first. */
const readAt = ({ record, at, givenAt }: AnswerTold): Place => ({ record, at: givenAt ?? at });
const rightedLater = ({ putsRight }: AnswerTold): string =>
  putsRight === undefined ? '' : ', put right later';

function readingOf(told: Told, one: AnswerTold): Reading[] {
  const { answer, question } = one;
  if (answer.kind !== 'quantity' || answer.unit !== 'degC' || notOfTheVessel.includes(question)) return [];
  const { value, plusMinus } = answer;
  return [
    {
      ...readAt(one),
      label: rowName(told, question),
      value,
      plusMinus,
      says: answered(told, question, answer) + rightedLater(one),
    },
  ];
}

const placeOfBoth = ({ record, at }: Place): Place => ({ record, at });

function markOf(told: Told, one: AnswerTold): Mark[] {
  const marked = markedAnswers[one.question];
  if (!marked) return [];
  const [kind, says] = marked;
  const seen = answered(told, one.question, one.answer) + rightedLater(one);
  return [{ ...readAt(one), kind, says: `${says}: ${seen}` }];
}

function stopMarks({ story }: Told, visit: StageTold): Mark[] {
  const here = story.stops.filter((told) => !told.again && isSameVisit(told, visit));
  return here.flatMap(({ stop, cleared, record, at }): Mark[] => [
    { record, at, kind: 'stop', says: `stop ${stop} held` },
    ...(cleared ? [{ ...placeOfBoth(cleared), kind: 'cleared' as const, says: `stop ${stop} cleared` }] : []),
  ]);
}

const inTime = (one: Place, other: Place) =>
  Date.parse(one.at) - Date.parse(other.at) || one.record - other.record;

function panelOf(told: Told, visit: StageTold): Panel {
  const answers = keptByMaker(told.story).filter((one) => isSameVisit(one, visit));
  const marks = [...answers.flatMap((one) => markOf(told, one)), ...stopMarks(told, visit)];
  return {
    title: visitTitle(told, visit),
    stages: [visit.stage],
    readings: answers.flatMap((one) => readingOf(told, one)),
    marks: marks.sort(inTime),
  };
}

/** A stretch with a single reading is drawn with its neighbour in the same vessel, where there is one. */
function joined(panels: readonly { panel: Panel; vessel: string }[]): Panel[] {
  const groups: { panel: Panel; vessel: string }[] = [];
  for (const { panel, vessel } of panels) {
    const last = groups.at(-1);
    const few = last && (panel.readings.length < 2 || last.panel.readings.length < 2);
    if (last && few && last.vessel === vessel) {
      const { title, stages, readings, marks } = last.panel;
      last.panel = {
        title:
          panel.readings.length === 0
            ? title
            : readings.length === 0
              ? panel.title
              : `${title}; ${panel.title.toLowerCase()}`,
        stages: [...stages, ...panel.stages],
        readings: [...readings, ...panel.readings],
        marks: [...marks, ...panel.marks],
      };
    } else groups.push({ panel, vessel });
  }
  return groups.map(({ panel }) => panel).filter(({ readings }) => readings.length > 1);
}

const withMethanol = ['methoxide', 'react', 'second-stage', 'flash'];

function withLine(told: Told, panel: Panel): Panel {
  const boiling = told.story.state.figures['methanol-boiling-here'];
  if (!boiling || !panel.stages.some((stage) => withMethanol.includes(stage))) return panel;
  return {
    ...panel,
    line: { value: boiling.value, says: `methanol boils here at ${figureInWords(boiling)}` },
  };
}

export function panelsOf(told: Told): Panel[] {
  const panels = visitsInVessels(told).map(({ visit, vessel }) => ({ panel: panelOf(told, visit), vessel }));
  return joined(panels).map((panel) => withLine(told, panel));
}

function entriesOf(panel: Panel): Entry[] {
  const readings = panel.readings.map((one) => ({
    group: panel.title,
    item: one.label,
    value: one.says,
    measured: { value: one.value, unit: 'degC' as const, plusMinus: one.plusMinus },
    ...placeOfBoth(one),
  }));
  const marks = panel.marks.map((one) => ({
    group: panel.title,
    item: `Event: ${markKinds[one.kind]}`,
    value: one.says,
    ...placeOfBoth(one),
  }));
  return [...readings, ...marks].sort(inTime);
}

export function curveSection(panels: readonly Panel[]): Section {
  return {
    id: 'curve',
    title: 'Temperature and time',
    caption: 'The readings and events of the curves',
    columns: [{ field: 'item', head: 'Reading or event' }, { field: 'value', head: 'Value' }, ...whenColumns],
    entries: panels.flatMap(entriesOf),
    none: 'No vessel has two temperature readings, so there is no curve.',
  };
}
