import { loadRules } from '../../src/rulebook/load-rules.ts';
import { smallRules } from '../conversation/small-book.ts';

/** What can go wrong in the small house of the kettle: a diagnosis short enough to be read whole. */
export const kettleTrouble = {
  path: 'diagnosis/kettle.yaml',
  text: `causes:
  - id: few-leaves
    name: Too few leaves
    say: There are too few leaves in the cup.
    because: The taste comes from the leaves.
    proof: A cup with twice the leaves tastes.
    cure: Put in more leaves.
    prevent: Weigh the leaves.
    danger: None but a dull cup.
    log: How many leaves went in.
    back-to: pour
    source: common-practice
    odds: { pouring: 4 }
    likely: { leaves: { few: almost-always }, steam-look: { plenty: often } }
  - id: cool-water
    name: Water too cool
    say: The water was too cool.
    because: Cool water draws little.
    proof: Boiling water on the same leaves tastes.
    cure: Warm it again.
    dose: { needs: [half], say: 'Warm half of it, {half}.', else: Warm half of it. }
    prevent: Wait for steam.
    danger: None but a dull cup.
    log: How warm it was.
    back-to: warm
    source: common-practice
    odds: { warming: 2, pouring: 2 }
    likely: { leaves: { few: rarely }, steam-look: { none: almost-always } }
  - id: scale
    name: Scale in the kettle
    say: Scale covers the bottom.
    because: It keeps the heat from the water.
    proof: Vinegar takes it off.
    cure: Boil it out with vinegar.
    prevent: Use soft water.
    danger: The bottom burns through.
    log: When it was cleaned.
    source: common-practice
    odds: { warming: 1 }
    likely: { scale-look: { white: almost-always }, sound: { loud: often } }
findings:
  - id: leaves
    ask: How many leaves are in the cup?
    short: Leaves?
    how: Weigh them.
    where: [pouring]
    minutes: 2
    money: 0
    risk: none
    bands: { unit: g, of: { few: '< 2', many: '>= 2' } }
    choices: { few: { say: a pinch, share: 0.3 }, many: { say: a spoonful, share: 0.7 } }
  - id: steam-look
    ask: Did it steam when you took it off?
    how: Remember.
    where: [warming, pouring]
    minutes: 1
    money: 0
    risk: none
    choices:
      none: { say: only wisps, share: 0.3, log: { fact: steam, operator: equal, value: false } }
      plenty: { say: thick clouds, share: 0.7, log: { fact: steam, operator: equal, value: true } }
  - id: scale-look
    ask: What is on the bottom?
    how: Look in from the side.
    where: [warming]
    minutes: 1
    money: 0
    risk: some
    caution: { signal: CAUTION, say: Keep your face off the steam. }
    gate: lid-off
    choices: { white: { say: a white crust, share: 0.2 }, bright: { say: bright metal, share: 0.8 } }
  - id: sound
    ask: How does it sound?
    how: Listen.
    where: [warming]
    minutes: 1
    money: 0
    risk: none
    choices: { loud: { say: it roars, share: 0.2 }, quiet: { say: it hums, share: 0.6 }, crackle: { say: it crackles and glows, share: 0.2, alarm: fire } }
complaints:
  - id: weak
    say: the tea is weak
    also: [weak tea, tastes of nothing]
    stages: [pouring]
    core: [few-leaves, cool-water]
    possible: []
  - id: slow
    say: it takes for ever to boil
    also: [boils slowly, never boils]
    stages: [warming]
    core: [scale]
    possible: [cool-water]
    sets: [{ finding: sound, among: [loud, quiet, crackle] }]
  - id: glowing
    say: the bottom glows
    also: [red bottom]
    stages: [warming]
    core: [scale]
    possible: [cool-water]
    alarm: fire
gates:
  - { id: lid-off, say: the lid is off }
talk:
  stage: { ask: Where did it show?, how: Say which step. }
  words: { ask: What is not right?, how: In your own words. }
  complaint: { ask: Which comes nearest?, how: Take one. }
  right: { ask: Have I got that right?, how: Yes or no. }
  next: { ask: What now?, how: Choose. }
weighing:
  words: { almost-always: 0.95, often: 0.70, sometimes: 0.35, rarely: 0.08 }
  most: 0.98
  fit: { core: 1, possible: 0.3, other: 0.03 }
  group-power: 0.5
  risk: { none: 0, some: 0.25, much: 0.75 }
  settled: 0.85
  worth-asking: 0.05
  two-causes: { under: 0.5, after: 5 }
  stages:
    - { id: warming, say: warming it, talk: [warm] }
    - { id: pouring, say: pouring it, talk: [pour] }
  groups: [[leaves, steam-look]]
  source: common-practice
`,
};

export const kettleRules = [...smallRules, kettleTrouble];
export const kettleBook = loadRules(kettleRules, '0'.repeat(64)).book;
