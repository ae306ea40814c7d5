import { loadRules } from '../../src/rulebook/load-rules.ts';

/** A house of two stages, small enough to see whole: a kettle is warmed and poured. */
export const smallRules = [
  {
    path: 'flow.yaml',
    text: 'stages: [warm, pour]',
  },
  {
    path: 'sources.yaml',
    text: 'sources: [{ id: common-practice, cite: Common practice without a source, kind: practice, seen: none }]',
  },
  {
    path: 'words.yaml',
    text: 'words: [{ term: kettle, also: [pot], means: the vessel of this little house }]',
  },
  {
    path: 'limits/kettle.yaml',
    text: `limits:
  - { id: hot, is: Hottest water that is poured, value: 60, unit: degC, source: common-practice }
  - { id: much, is: Much water for a half, value: 5, unit: L, source: common-practice }`,
  },
  {
    path: 'hazards/lid.yaml',
    text: `questions:
  - id: alarm
    ask: What is wrong?
    how: Look from a distance.
    purpose: decide
    answer: { choice: { fire: { say: fire }, all-well: { say: all well } } }
  - id: fire-out
    ask: Is the fire out?
    how: Only the fire service says so.
    purpose: record
    answer: { yes-no: { yes: it is out, no: it burns } }
  - id: lid
    ask: Is the lid on?
    how: Look at it.
    purpose: record
    answer: { choice: { shut: { say: shut tight, also: [closed] }, open: { say: open } } }
hazards:
  - id: S1
    name: burning
    signal: DANGER
    stages: any
    safe-when: { fact: alarm, operator: notEqual, value: fire }
    say: Get out.
    stop: the fire is out.
    because: Fire hurts.
    source: common-practice
    clear: { ask: [fire-out], safe-when: { fact: fire-out, operator: equal, value: true } }
  - id: S2
    name: lid-off
    signal: WARNING
    stages: [pour]
    asks: [lid]
    safe-when: { fact: lid, operator: equal, value: shut }
    say: Shut the lid.
    stop: the lid is shut.
    because: It splashes.
    source: common-practice
    clear: { ask: [lid], safe-when: { fact: lid, operator: equal, value: shut } }`,
  },
  {
    path: 'stages/warm.yaml',
    text: `stage: warm
title: Warm the kettle
about: Slowly.
questions:
  - id: amount
    ask: How much water is in it?
    how: Read the gauge.
    purpose: record
    once: true
    answer: { quantity: { unit: L, plausible: [1, 50], possible: [0, 500], reads: 1 } }
  - id: heat
    ask: What does the thermometer show?
    how: Read it at eye level.
    purpose: record
    answer: { quantity: { unit: degC, plausible: [10, 95], possible: [-20, 120], reads: 2 } }
  - id: steam
    ask: Does it steam?
    how: Look.
    purpose: decide
    when: { fact: heat, operator: greaterThan, value: { fact: limit.hot } }
    answer: { yes-no: { yes: it steams, no: no steam } }
compute:
  - { fact: half, about: Half of the water, unit: L, formula: a / 2, with: { a: amount }, source: common-practice, say: 'Half is {half}.' }
advice:
  - id: too-hot
    when: { fact: heat, operator: greaterThan, value: { fact: limit.hot } }
    signal: CAUTION
    say: Let it cool, it shows {heat}.
    because: Above {limit.hot} it scalds.
    source: common-practice
    then: { ask-again: [heat], after: 10 min }
  - { id: much-water, when: { fact: half, operator: greaterThan, value: { fact: limit.much } }, say: That is much., because: It is., source: common-practice }
leave:
  - { to: pour, when: { fact: heat, operator: lessThanInclusive, value: { fact: limit.hot } } }
unsafe-to-leave:
  - { when: { fact: heat, operator: greaterThan, value: { fact: limit.hot } }, say: Take it off the fire. }`,
  },
  {
    path: 'stages/pour.yaml',
    text: `stage: pour
title: Pour
about: Into the cup.
questions:
  - use: lid
  - id: cup
    ask: Which cup?
    how: Any cup.
    purpose: record
    answer: { text: true }
advice:
  - { id: well-done, when: { fact: cup, operator: notEqual, value: none }, say: Well poured., because: It is in the cup., source: common-practice }
leave:
  - { to: end }`,
  },
];

export const smallBook = loadRules(smallRules, '0'.repeat(64)).book;
