import { calculate } from '../chemistry/calculate.ts';
import type { Calculation, InputSpec } from '../chemistry/calculation.ts';
import { showQuantity } from '../quantity/show.ts';
import { isUnitId } from '../quantity/units.ts';

export interface PageCheck {
  what: string;
  /** Name of a calculation, or of a function that calculations use. */
  of: string;
  ours: number;
  published: number;
  allowed: number;
  unit: string;
  source: string;
  where: string;
  seen: string;
  note?: string;
}

export interface PageMaterial {
  /** Source texts of src/chemistry, by file name. */
  texts: Readonly<Record<string, string>>;
  calculations: Readonly<Record<string, Calculation>>;
  sources: Readonly<Record<string, { cite: string; seen: string }>>;
  /** One plausible set of inputs for each calculation. */
  examples: Readonly<Record<string, Readonly<Record<string, number | string>>>>;
  checks: readonly PageCheck[];
}

interface Declaration {
  file: string;
  name: string;
  comment: string;
  body: string;
}

/** Declarations by file and name. */
type Declared = ReadonlyMap<string, ReadonlyMap<string, Declaration>>;

const STARTS =
  /^(?:\/\*\*((?:(?!\*\/)[\s\S])*)\*\/\n)?(?:export )?(?:async )?(function|const|interface|type) (\w+)/gm;
const IMPORTED = /^import (?:type )?\{([^}]*)\} from '\.\/([\w-]+\.ts)';/gm;

/** Top-level declarations of a file, each with its doc comment and its text. */
function declarationsOf(file: string, text: string): ReadonlyMap<string, Declaration> {
  const starts = [...text.matchAll(STARTS)];
  const found = starts.map((match, index): [string, Declaration] => {
    const [, comment = '', kind, name = ''] = match;
    const body = text.slice(match.index + match[0].length, starts[index + 1]?.index);
    // A type ends the declaration before it, but nothing is calculated by a type.
    return [name, { file, name, comment, body: kind === 'type' || kind === 'interface' ? '' : body }];
  });
  return new Map(found);
}

/** What a name means inside a file: its own declaration, or one that it imports. */
function meaningsIn(file: string, text: string, declared: Declared): ReadonlyMap<string, Declaration> {
  const imported = [...text.matchAll(IMPORTED)].flatMap(([, names = '', from = '']) =>
    names.split(',').flatMap((one): [string, Declaration][] => {
      const name = one.trim().replace(/^type /, '');
      const found = declared.get(from)?.get(name);
      return found ? [[name, found]] : [];
    }),
  );
  return new Map([...imported, ...(declared.get(file) ?? [])]);
}

const withoutStrings = (code: string): string => code.replace(/'(?:[^'\\\n]|\\.)*'|\/\/.*$/gm, ' ');

/** Documented functions that a calculation calls, itself or through others, in the order they are met. */
function functionsUsed(
  calculation: Calculation,
  declared: Declared,
  texts: PageMaterial['texts'],
): Declaration[] {
  const own = [...declared.values()]
    .flatMap((inFile) => [...inFile.values()])
    .find(({ body }) => body.startsWith(': Calculation = {') && body.includes(`name: '${calculation.name}'`));
  if (!own) throw new Error(`no file declares the calculation ${calculation.name}`);
  const met = new Set([own]);
  for (const { file, body } of met) {
    const meanings = meaningsIn(file, texts[file] ?? '', declared);
    for (const [word] of withoutStrings(body).matchAll(/(?<!\w|[\w)\]]\.)[A-Za-z_]\w*/g)) {
      const next = meanings.get(word);
      if (next) met.add(next);
    }
  }
  return [...met].filter(({ comment }) => comment.includes('@source'));
}

interface Contract {
  /** Running text and formulas, in the order of the comment. */
  about: string[];
  tags: [tag: string, text: string][];
}

function contractOf(comment: string): Contract {
  const lines = comment.split('\n').map((line) => line.replace(/^ ?\*? ?/, '').trimEnd());
  const about: string[] = [];
  const tags: [string, string][] = [];
  for (const line of lines.filter((one) => one.trim() !== '')) {
    const tag = /^\s*@(\w+)\s+(.*)$/.exec(line);
    const last = tags[tags.length - 1];
    if (tag) tags.push([tag[1] as string, (tag[2] as string).replace(/\s+/g, ' ')]);
    else if (last) last[1] += ` ${line.trim()}`;
    else about.push(...prose(line));
  }
  return { about, tags };
}

/** Three spaces part the words of a comment line from its formula. */
function prose(line: string): string[] {
  const parted = /^(.*?)(?:^| {2}) +(\S.*?),?$/.exec(line);
  return parted ? [parted[1] ?? '', `\`${parted[2]}\``].filter((part) => part !== '') : [line.trim()];
}

const cell = (text: string): string => text.replaceAll('|', '\\|');
const row = (...cells: string[]): string => `| ${cells.map(cell).join(' | ')} |`;

function formula({ name, comment }: Declaration): string[] {
  const { about, tags } = contractOf(comment);
  const tagged = (tag: string): string[] => tags.filter(([one]) => one === tag).map(([, text]) => text);
  const [call = '', printed = ''] = (tagged('example')[0] ?? '').split(' // ');
  return [
    `- **${name}**: ${about.join(' ')}`,
    ...tagged('param').map((text) => `  - takes ${text.replace(/^\w+/, '`$&`:')}`),
    ...tagged('returns').map((text) => `  - gives ${text}`),
    ...tagged('throws').map((text) => `  - refuses (${text.replace(/ /, ') ')}`),
    ...tagged('source').map((text) => `  - source: ${text}`),
    `  - example: \`${call}\` gives ${printed}`,
  ];
}

function startsAs({ default: value, optional, insteadOf, unit }: InputSpec): string {
  if (value !== undefined) return unit === 'text' || unit === '1' ? String(value) : `${value} ${unit}`;
  if (insteadOf !== undefined) return `instead of ${insteadOf}`;
  return optional ? 'may be left out' : 'needed';
}

function instrument({ reads, readsPercent, unit }: InputSpec): string {
  const shown = unit === '1' ? '' : ` ${unit}`;
  return [
    ...(reads === undefined ? [] : [`${reads}${shown}`]),
    ...(readsPercent === undefined ? [] : [`${readsPercent} % of it`]),
  ].join(', at least ');
}

function inputTable(calculation: Calculation): string[] {
  return [
    row('input', 'unit', 'what', 'if not given', '± if not given'),
    row('---', '---', '---', '---', '---'),
    ...Object.entries(calculation.inputs).map(([key, spec]) => {
      const choices = spec.choices ? ` (${spec.choices.join(', ')})` : '';
      return row(key, spec.unit, spec.about + choices, startsAs(spec), instrument(spec));
    }),
  ];
}

function outputTable(calculation: Calculation): string[] {
  return [
    row('output', 'unit', 'what', 'digits'),
    row('---', '---', '---', '---'),
    ...Object.entries(calculation.outputs).map(([key, { unit, about, digits, optional }]) =>
      row(key, unit, optional ? `${about}; left out where the source says nothing` : about, String(digits)),
    ),
  ];
}

function workedExample(
  calculation: Calculation,
  example: Readonly<Record<string, number | string>>,
): string[] {
  const typed = Object.entries(example).map(([key, value]) => {
    const unit = calculation.inputs[key]?.unit ?? '1';
    const word = `${key}=${value}${unit === 'text' || unit === '1' || unit === 'money' ? '' : unit}`;
    return /[\s'"]/.test(word) ? `'${word}'` : word;
  });
  const given = Object.fromEntries(Object.entries(example).map(([key, value]) => [key, { value }]));
  const results = Object.entries(calculate(calculation, given).result).map(([key, result]) => {
    const unit = isUnitId(result.unit) ? result.unit : '1';
    const digits = calculation.outputs[key]?.digits ?? 3;
    const options = result.plusMinus > 0 ? { plusMinus: result.plusMinus } : { digits };
    const biggest = result.biggest ? `   most of the ± from ${result.biggest}` : '';
    return `  ${key.padEnd(20)} ${showQuantity(result.value, unit, options)}${biggest}`;
  });
  return ['```', `batchside calc ${[calculation.name, ...typed].join(' ')}`, '', ...results, '```'];
}

const tidy = (value: number): string => String(Number(value.toPrecision(5)));

/** In percent; a temperature has no percent that means anything, so its difference is told in kelvin. */
function off({ ours, published, unit }: PageCheck): string {
  const [size, unitOfSize] =
    unit === 'degC'
      ? [(ours - published).toFixed(1), 'K']
      : [((100 * (ours - published)) / Math.abs(published)).toFixed(2), '%'];
  const isZero = Number(size) === 0;
  return `${isZero ? size.replace('-', '') : size.replace(/^(?=\d)/, '+')} ${unitOfSize}`;
}

const allowance = (check: PageCheck): string =>
  check.unit === 'degC'
    ? `${tidy(check.allowed)} K`
    : `${tidy((100 * check.allowed) / Math.abs(check.published))} %`;

function checkTable(checks: readonly PageCheck[]): string[] {
  return [
    row('what', 'unit', 'ours', 'published', 'off by', 'allowed', 'source', 'seen'),
    row('---', '---', '---', '---', '---', '---', '---', '---'),
    ...checks.map((check) => {
      const from = `${check.source}: ${check.where}`;
      const numbers = [tidy(check.ours), tidy(check.published), off(check), allowance(check)];
      const note = check.note === undefined ? '' : ` _${check.note}_`;
      return row(check.what + note, check.unit, ...numbers, from, check.seen.replace('-', ' '));
    }),
  ];
}

function sourceList(ids: Iterable<string>, sources: PageMaterial['sources']): string[] {
  return [...new Set(ids)].sort().map((id) => {
    const source = sources[id];
    if (!source) throw new Error(`no source ${id}`);
    return `- **${id}** (${source.seen.replace('-', ' ')}): ${source.cite}`;
  });
}

function checkedBy(
  used: readonly Declaration[],
  calculation: Calculation,
  checks: readonly PageCheck[],
): string {
  const names = [calculation.name, ...used.map(({ name }) => name)];
  const counts = names
    .map((name) => [name, checks.filter(({ of }) => of === name).length] as const)
    .filter(([, count]) => count > 0)
    .map(([name, count]) => `${name} ${count}`);
  if (counts.length > 0) return `Published values it is checked against, listed below: ${counts.join(', ')}.`;
  return 'No published value was found to check it by; its tests are worked by hand, with balances and limits.';
}

const FOREWORD = [
  '# Calculations and their sources',
  '',
  'Made from the program by `npm run docs`; do not edit it by hand.',
  '',
  'Each calculation can be run as `batchside calc NAME key=value ...`; quantities carry their unit.',
  'A ± comes from the ± of your readings, or of a usual instrument where you give none: each is carried',
  'along a straight line and they are added as squares. Where one input is uncertain by a fifth or more, the',
  'true spread can be a fifth larger. It does not cover a wrong sample, a wrong label or a formula used for',
  'another liquid.',
  'Outside its range a formula refuses; it never guesses. A figure here helps you to prepare: the tests at',
  'the bench and the rules of your place decide.',
];

/** The page about every calculation: what it takes, how it works, and how it agrees with what is published. */
export function calculationsPage(material: PageMaterial): string {
  const { texts } = material;
  const declared = new Map(
    Object.entries(texts).map(([file, text]) => [file, declarationsOf(file, text)] as const),
  );
  const toldUnder = new Map<string, string>();
  const sections = Object.values(material.calculations).map((calculation) => {
    const used = functionsUsed(calculation, declared, texts);
    const fresh = used.filter(({ name }) => !toldUnder.has(name));
    const known = used.filter(({ name }) => toldUnder.has(name));
    for (const { name } of fresh) toldUnder.set(name, calculation.name);
    const elsewhere = known.map(({ name }) => `${name} (under ${toldUnder.get(name)})`).join(', ');
    const example = material.examples[calculation.name];
    if (!example) throw new Error(`no example for ${calculation.name}`);
    return [
      `## ${calculation.name}\n\n${calculation.about}`,
      inputTable(calculation).join('\n'),
      outputTable(calculation).join('\n'),
      workedExample(calculation, example).join('\n'),
      ...(fresh.length > 0 ? [`Formulas\n\n${fresh.flatMap(formula).join('\n')}`] : []),
      ...(elsewhere ? [`It also uses ${elsewhere}.`] : []),
      `Sources: ${calculation.sources.join(', ')}. ${checkedBy(used, calculation, material.checks)}`,
    ].join('\n\n');
  });
  const lookedUp = material.checks.filter(({ seen }) => seen === 'looked-up').length;
  const cited = Object.values(material.calculations).flatMap(({ sources }) => sources);
  return [
    FOREWORD.join('\n'),
    ...sections,
    `## Checked against published values\n\n${material.checks.length} checks; ${lookedUp} of the published ` +
      'values were looked up for this table, the others are from memory and should be looked up before they ' +
      'are quoted.\nWhere a span was measured, its middle is given and the whole span, or what the estimate ' +
      'claims, is allowed.',
    checkTable(material.checks).join('\n'),
    `## Sources\n\n${sourceList([...cited, ...material.checks.map(({ source }) => source)], material.sources).join('\n')}`,
    '',
  ]
    .join('\n\n')
    .replace(/\n+$/, '\n');
}
