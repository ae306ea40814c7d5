import { describe, expect, it } from 'vitest';
import type { EventBody } from '../../src/conversation/events.ts';
import { markedAnswers, notOfTheVessel } from '../../src/report/curve.ts';
import { doseFacts } from '../../src/report/doses.ts';
import { glanceFacts } from '../../src/report/glance.ts';
import { judged } from '../../src/report/limit-tests.ts';
import { looks } from '../../src/report/looks.ts';
import { rowNames } from '../../src/report/row-names.ts';
import { tellStory } from '../../src/review/story.ts';
import { factsSetBy } from '../../src/rulebook/book.ts';
import { book } from '../rulebook/cases.ts';
import { demoReport, entriesOf, goingOn, logOf, reportOf, reportOfStory } from './made.ts';

const figures = new Set(book.computations.flatMap(factsSetBy));

describe('what the report names', () => {
  it.each([...looks, ...notOfTheVessel, ...Object.keys(markedAnswers)])(
    'the question %s is one of the rules',
    (id) => {
      expect(Object.keys(book.questions)).toContain(id);
    },
  );

  it.each([...new Set([...doseFacts, ...glanceFacts, ...Object.keys(rowNames)])])(
    '%s is a question or a figure of the rules',
    (fact) => {
      expect(fact in book.questions || figures.has(fact)).toBe(true);
    },
  );
});

// What "too close to call" means is ours: the ± reaches over the limit. Common practice, no source.
describe('a verdict', () => {
  const most = (value: number, strict = false) => ({ bound: 'max' as const, strict, limit: { value } });
  it.each([
    [0.3, 0.1, most(0.5), 'pass'],
    [0.45, 0.1, most(0.5), 'too close to call'],
    [0.55, 0.1, most(0.5), 'too close to call'],
    [0.6, 0.1, most(0.5), 'fail'],
    [0.5, 0, most(0.5), 'pass'],
    [0.5, 0, most(0.5, true), 'fail'],
    [0.8, 0.01, { ...most(0.86), bound: 'min' as const }, 'fail'],
    [0.88, 0.01, { ...most(0.86), bound: 'min' as const }, 'pass'],
  ])('%d ± %d against %o is %s', (value, plusMinus, against, verdict) => {
    expect(judged({ value, plusMinus }, against)).toBe(verdict);
  });
});

describe('a clean batch', () => {
  const report = demoReport('clean-first-batch');
  const test = (item: string) => entriesOf(report, 'tests').filter((one) => one.item === item);

  it('has its acid number and methanol judged by ASTM D6751 and its density by EN 14214', () => {
    // The limits as in public copies of the tables of ASTM D6751-09 and EN 14214:2012+A1:2014, looked up.
    expect(test('Acid number of the finished fuel')).toMatchObject([
      { against: 'at most 0.5\u00a0mg KOH/g', verdict: 'pass', sources: ['astm-d6751-09'] },
    ]);
    expect(test('Methanol left, by loss of weight')).toMatchObject([
      { against: 'at most 0.2\u00a0%', verdict: 'pass', sources: ['astm-d6751-09'] },
    ]);
    expect(test('Density at 15 °C').map(({ against }) => against)).toEqual([
      'at least 0.86\u00a0g/mL',
      'at most 0.9\u00a0g/mL',
    ]);
    expect(test('Density at 15 °C')[0]?.sources).toEqual(['en-14214']);
  });

  it('has curves of the oil, the methoxide, the reaction and the flash, with charge and draws', () => {
    const stages = report.panels.flatMap((panel) => panel.stages);
    expect(stages).toEqual(expect.arrayContaining(['dewater', 'methoxide', 'react', 'flash']));
    const kinds = report.panels.flatMap(({ marks }) => marks.map(({ kind }) => kind));
    expect(new Set(kinds)).toEqual(new Set(['heat', 'charge', 'draw', 'test']));
  });

  it('holds no stop, and no wait was cut short', () => {
    expect(entriesOf(report, 'stops')).toEqual([]);
    expect(entriesOf(report, 'deviations').map(({ group }) => group)).not.toContain('Waits cut short');
  });
});

describe('stops', () => {
  it('say what cleared them, or that they still hold', () => {
    const stops = entriesOf(demoReport('dangerous-rig-stopped'), 'stops');
    expect(stops.map(({ item }) => item.split(' ')[1])).toEqual(['R14', 'R04-flame', 'R06', 'R04-burner']);
    expect(stops[0]?.verdict).toMatch(
      /^cleared after 5\u00a0days, record \d+, .* UTC\. Where does the methanol work stand\? detached shed/,
    );
    expect(stops.map(({ value }) => value)).toEqual(['cleared', 'cleared', 'cleared', 'STILL HOLDING']);
    const glance = entriesOf(demoReport('dangerous-rig-stopped'), 'glance');
    expect(glance.find(({ item }) => item === 'Stops')?.value).toContain('STILL HOLDING: R04-burner');
  });

  it('stand on the curve where they held a vessel', () => {
    const react = demoReport('high-acid-blended').panels.find(({ stages }) => stages.includes('react'));
    expect(react?.marks.map(({ kind }) => kind)).toEqual(expect.arrayContaining(['stop', 'cleared']));
  });
});

describe('where a batch left the straight way', () => {
  const deviations = (report: ReturnType<typeof reportOf>, group: string) =>
    entriesOf(report, 'deviations').filter((one) => one.group === group);

  it('answers left open stand there, with what was answered later', () => {
    const open = deviations(demoReport('dangerous-rig-stopped'), 'Not sure, or left out');
    expect(open.map(({ says }) => says?.slice(0, 14))).toEqual([
      'Answered later',
      'It stayed unkn',
      'It stayed unkn',
    ]);
  });

  it('a wait that was cut short stands there with both times', () => {
    const log = logOf('clean-first-batch');
    const first = log.findIndex(({ event }) => event.type === 'WaitEnded');
    const short = log
      .slice(0, first + 1)
      .map((one, index) =>
        index === first && one.event.type === 'WaitEnded'
          ? { ...one, event: { ...one.event, how: 'early' as const, waitedMinutes: 4 } }
          : one,
      );
    const [wait] = deviations(reportOf(short), 'Waits cut short');
    expect(wait?.value).toMatch(/^4\u00a0min of \d+\u00a0min$/);
  });

  it('an answer put right and one taken back stand there, and the first one is kept', () => {
    const begun = logOf('clean-first-batch').slice(0, 5);
    const put: EventBody[] = [
      {
        type: 'AnswerChanged',
        question: 'maker',
        answer: { kind: 'text', text: 'second learner' },
        text: 'second learner',
      },
    ];
    const report = reportOf(goingOn(begun, put));
    expect(deviations(report, 'Answers put right')).toMatchObject([
      {
        value: 'second learner',
        says: expect.stringContaining('first learner of the Heron Yard shed (record 2)'),
      },
    ]);
    const answers = entriesOf(report, 'answers');
    expect(answers[0]).toMatchObject({
      value: 'first learner of the Heron Yard shed',
      says: 'Put right in record 6.',
    });
    const back = reportOf(goingOn(begun, [{ type: 'AnswerWithdrawn' }]));
    expect(deviations(back, 'Answers taken back')).toMatchObject([{ value: 'yes, one of the first three' }]);
  });
});

describe('a review', () => {
  const review: EventBody[] = [
    { type: 'ReviewOpened', mentor: 'the shed mentor', program: 'batchside demo', rules: 'demo' },
    { type: 'CommentMade', record: 2, text: 'Write your own name here.' },
    { type: 'CommentMade', text: 'Come by on Saturday.' },
    {
      type: 'ReviewSigned',
      mentor: 'the shed mentor',
      verdict: 'alone-with-this',
      well: 'every wait was kept',
      change: 'warm the sample longer',
      found: ['M01'],
    },
  ];
  const report = reportOf(goingOn(logOf('clean-first-batch'), review));
  const entries = entriesOf(report, 'review');

  it('stands there with its comments and sign-off', () => {
    expect(entries.filter(({ group }) => group === 'Comments')).toMatchObject([
      {
        item: expect.stringMatching(/^Record 2: Who is running/),
        value: 'by the shed mentor',
        says: 'Write your own name here.',
      },
      { item: 'The batch as a whole', says: 'Come by on Saturday.' },
    ]);
    const signed = entries
      .filter(({ group }) => group === 'Sign-off')
      .map(({ says, value }) => says ?? value);
    expect(signed).toEqual([
      'Signed by the shed mentor.',
      'every wait was kept',
      'warm the sample longer',
      'M01',
    ]);
    expect(entriesOf(report, 'glance').find(({ item }) => item === 'Review')?.value).toContain('go on alone');
  });

  it('puts a comment at the answer it is about', () => {
    expect(entriesOf(report, 'answers')[0]?.says).toBe(
      'Comment by the shed mentor: Write your own name here.',
    );
  });
});

it('tells a trouble with its causes, how sure that was, and the cure', () => {
  const cause = book.diagnosis?.causes[0];
  if (!cause) throw new Error('the rules have no causes');
  const outcome = {
    fromLog: [],
    causes: [{ id: cause.id, probability: 0.86 }],
    settled: true,
    two: false,
    evidence: {},
  };
  const story = tellStory(book, logOf('dangerous-rig-stopped'));
  const report = reportOfStory({
    ...story,
    troubles: [{ record: 9, at: story.last, text: 'it foams', outcome }],
  });
  expect(entriesOf(report, 'troubles')).toMatchObject([
    {
      item: 'it foams',
      value: `most likely ${cause.name} (86\u00a0%)`,
      says: expect.stringContaining(`Cure: ${cause.cure}`),
    },
  ]);
});

it('shows what the checks find, worst word first, with the answers it is about and its source', () => {
  const story = tellStory(book, logOf('dangerous-rig-stopped'));
  const around = story.answers.filter(({ question }) => question === 'vessel-type');
  const report = reportOfStory(story, [
    {
      check: 'M99',
      name: 'open-drum',
      signal: 'WARNING',
      fix: true,
      says: 'The vessel was open.',
      because: 'Vapour gets out.',
      source: { id: 'en-14214', where: 'anywhere' },
      around,
      trace: [],
    },
  ]);
  const standing = around.filter(({ stands }) => stands).map(({ record }) => record);
  expect(entriesOf(report, 'review')).toMatchObject([
    {
      item: 'M99 open drum',
      value: 'WARNING; put right before the numbers are used',
      says: `The vessel was open. Vapour gets out. See record ${standing.join(', ')}.`,
      verdict: 'not looked at yet',
      sources: ['en-14214'],
    },
  ]);
  expect(report.sources.map(({ id }) => id)).toContain('en-14214');
});
