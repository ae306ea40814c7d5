export type Dimension =
  | 'temperature'
  | 'temperature-difference'
  | 'volume'
  | 'mass'
  | 'time'
  | 'power'
  | 'energy'
  | 'fraction'
  | 'count'
  | 'mole-ratio'
  | 'acid-value'
  | 'mass-per-volume'
  | 'molarity'
  | 'molar-mass'
  | 'flow'
  | 'bed-flow'
  | 'rate'
  | 'pressure'
  | 'length'
  | 'acidity'
  | 'energy-per-mass'
  | 'iodine-value'
  | 'viscosity'
  | 'money';

export interface Unit {
  readonly dimension: Dimension;
  /** Value in the dimension's base unit = value * factor + offset. */
  readonly factor: number;
  readonly offset?: number;
  /** As shown after one, and after any other number. */
  readonly shown: readonly [one: string, many: string];
  /** As people type it, lower case, single spaces, no dots. Plurals of whole words are added. */
  readonly typed: readonly string[];
}

function unit(
  dimension: Dimension,
  factor: number,
  shown: string | readonly [string, string],
  typed: readonly string[] = [],
  offset?: number,
): Unit {
  const pair = typeof shown === 'string' ? ([shown, shown] as const) : shown;
  return offset === undefined
    ? { dimension, factor, shown: pair, typed }
    : { dimension, factor, shown: pair, typed, offset };
}

// Exact by definition (NIST SP 811 appendix B, NIST Handbook 44 appendix C; figures from memory).
const usGallonL = 3.785411784;
const imperialGallonL = 4.54609;
const poundG = 453.59237;
const footM = 0.3048;
const standardGravity = 9.80665;
const psiKPa = (poundG * standardGravity) / (footM / 12) ** 2 / 1e6;

/**
 * Every unit of the house. The base of each dimension has factor 1.
 * Where a word names several units (gallon, pint), `typed` holds the full names only; the bare word
 * is settled in read-unit.ts, because it depends on who is asking.
 */
export const unitTable = {
  degC: unit('temperature', 1, '°C', [
    'c',
    '°c',
    'celsius',
    'centigrade',
    'degc',
    'degree c',
    'degrees c',
    'degree celsius',
    'degrees celsius',
    'degrees centigrade',
    'degree centigrade',
    'deg celsius',
    'deg centigrade',
    'deg c',
  ]),
  degF: unit(
    'temperature',
    5 / 9,
    '°F',
    [
      'f',
      '°f',
      'fahrenheit',
      'farenheit',
      'fahrenheight',
      'degf',
      'degree f',
      'degrees f',
      'degree fahrenheit',
      'degrees fahrenheit',
      'deg f',
      'deg fahrenheit',
    ],
    (-32 * 5) / 9,
  ),
  K: unit('temperature-difference', 1, 'K', [
    'k',
    'kelvin',
    'kelvins',
    'c',
    '°c',
    'celsius',
    'centigrade',
    'degc',
    'degree c',
    'degrees c',
    'degree celsius',
    'degrees celsius',
    'deg c',
  ]),
  degFdiff: unit('temperature-difference', 5 / 9, '°F', [
    'f',
    '°f',
    'fahrenheit',
    'degf',
    'degree f',
    'degrees f',
    'degree fahrenheit',
    'degrees fahrenheit',
    'deg f',
  ]),

  L: unit('volume', 1, 'L', ['l', 'liter', 'litre', 'lt', 'ltr', 'ltrs', 'ℓ']),
  mL: unit('volume', 1e-3, 'mL', [
    'ml',
    'mls',
    'milliliter',
    'millilitre',
    'mil',
    'mils',
    'cc',
    'ccs',
    'cm3',
    'cubic centimeter',
    'cubic centimetre',
  ]),
  cL: unit('volume', 1e-2, 'cL', ['cl', 'centiliter', 'centilitre']),
  dL: unit('volume', 0.1, 'dL', ['dl', 'deciliter', 'decilitre']),
  m3: unit('volume', 1000, 'm³', ['m3', 'm³', 'cubic meter', 'cubic metre', 'cbm']),
  galUS: unit('volume', usGallonL, 'gal', ['us gal', 'us gals', 'us gallon', 'american gallon', 'galus']),
  galImp: unit('volume', imperialGallonL, 'imperial gal', [
    'imperial gal',
    'imperial gals',
    'imperial gallon',
    'imp gal',
    'imp gals',
    'imp gallon',
    'uk gal',
    'uk gals',
    'uk gallon',
    'british gallon',
    'galimp',
  ]),
  cup: unit('volume', usGallonL / 16, ['cup', 'cups'], ['cup', 'us cup', 'cupful']),
  pint: unit('volume', usGallonL / 8, 'pt', ['us pint', 'us pt', 'american pint']),
  pintImp: unit('volume', imperialGallonL / 8, 'imperial pt', [
    'imperial pint',
    'imperial pt',
    'imp pint',
    'uk pint',
    'british pint',
  ]),
  quart: unit('volume', usGallonL / 4, 'qt', ['us quart', 'us qt', 'us qts', 'american quart']),
  quartImp: unit('volume', imperialGallonL / 4, 'imperial qt', [
    'imperial quart',
    'imperial qt',
    'imp quart',
    'uk quart',
    'british quart',
  ]),
  flozUS: unit('volume', usGallonL / 128, 'fl oz', ['us fl oz', 'us fluid ounce', 'us floz', 'flozus']),
  flozImp: unit('volume', imperialGallonL / 160, 'imperial fl oz', [
    'imperial fl oz',
    'imperial fluid ounce',
    'imp fl oz',
    'uk fl oz',
    'uk fluid ounce',
    'flozimp',
  ]),
  tsp: unit('volume', usGallonL / 768, 'tsp', ['tsp', 'tsps', 'teaspoon', 'teaspoonful']),
  tbsp: unit('volume', usGallonL / 256, 'tbsp', ['tbsp', 'tbsps', 'tbs', 'tablespoon', 'tablespoonful']),

  g: unit('mass', 1, 'g', ['g', 'gm', 'gms', 'gr', 'gram', 'gramme']),
  kg: unit('mass', 1000, 'kg', ['kg', 'kgs', 'kilo', 'kilogram', 'kilogramme']),
  mg: unit('mass', 1e-3, 'mg', ['mg', 'mgs', 'milligram']),
  lb: unit('mass', poundG, 'lb', ['lb', 'lbs', 'pound']),
  oz: unit('mass', poundG / 16, 'oz', ['oz', 'ounce', 'ozs']),

  s: unit('time', 1, 's', ['s', 'sec', 'secs', 'second']),
  min: unit('time', 60, 'min', ['min', 'mins', 'minute', 'm']),
  h: unit('time', 3600, 'h', ['h', 'hr', 'hrs', 'hour']),
  day: unit('time', 86400, ['day', 'days'], ['day', 'd']),
  week: unit('time', 604800, ['week', 'weeks'], ['week', 'wk', 'wks']),
  // A twelfth of 365.25 days: good enough for how long something has stood.
  month: unit('time', 2629800, ['month', 'months'], ['month', 'mth', 'mths']),

  W: unit('power', 1, 'W', ['w', 'watt']),
  kW: unit('power', 1000, 'kW', ['kw', 'kilowatt', 'kws']),
  kWh: unit('energy', 1, 'kWh', ['kwh', 'kw h', 'kilowatt hour', 'kwhr', 'kwhs']),
  MJ: unit('energy', 1 / 3.6, 'MJ', ['mj', 'megajoule']),

  '%': unit('fraction', 1, '%', ['%', 'percent', '/cent', 'pct']),
  ppm: unit('fraction', 1e-4, 'ppm', ['ppm', 'part/million', 'parts/million', 'mg/kg']),
  '1': unit('count', 1, ''),
  'mol/mol': unit('mole-ratio', 1, 'mol/mol', ['mol/mol']),
  'mg KOH/g': unit('acid-value', 1, 'mg KOH/g', ['mg koh/g', 'mgkoh/g', 'mg koh/gram', 'mg/g']),

  'g/L': unit('mass-per-volume', 1, 'g/L', ['g/L']),
  'g/mL': unit('mass-per-volume', 1000, 'g/mL', ['g/mL', 'kg/L']),
  'kg/m3': unit('mass-per-volume', 1, 'kg/m³', ['kg/m3']),
  'g/galUS': unit('mass-per-volume', 1 / usGallonL, 'g/gal', ['g/galUS']),
  'mol/L': unit('molarity', 1, 'mol/L', ['mol/L', 'molar', 'm']),
  'g/mol': unit('molar-mass', 1, 'g/mol', ['g/mol']),

  'L/min': unit('flow', 1, 'L/min', ['L/min', 'lpm']),
  'L/h': unit('flow', 1 / 60, 'L/h', ['L/h', 'lph']),
  'galUS/min': unit('flow', usGallonL, 'gal/min', ['galUS/min', 'gpm']),
  'galUS/h': unit('flow', usGallonL / 60, 'gal/h', ['galUS/h', 'gph']),
  'BV/h': unit('bed-flow', 1, 'BV/h', [
    'bv/h',
    'bv/hr',
    'bv/hour',
    'bed volume/h',
    'bed volumes/h',
    'bed volume/hour',
    'bed volumes/hour',
    'bed volume an hour',
    'bed volumes an hour',
  ]),
  '1/h': unit('rate', 1, 'per hour', [
    '/h',
    '/hr',
    '/hour',
    'ach',
    'air change/hour',
    'air changes/hour',
    'air changes/h',
    'times/hour',
    'changes/hour',
  ]),

  kPa: unit('pressure', 1, 'kPa', ['kpa', 'kilopascal']),
  bar: unit('pressure', 100, 'bar', ['bar']),
  mbar: unit('pressure', 0.1, 'mbar', ['mbar', 'millibar', 'hpa']),
  psi: unit('pressure', psiKPa, 'psi', ['psi', 'lb/sq in', 'pounds/square inch']),

  m: unit('length', 1, 'm', ['m', 'meter', 'metre']),
  km: unit('length', 1000, 'km', ['km', 'kms', 'kilometer', 'kilometre']),
  cm: unit('length', 0.01, 'cm', ['cm', 'cms', 'centimeter', 'centimetre']),
  mm: unit('length', 0.001, 'mm', ['mm', 'millimeter', 'millimetre']),
  ft: unit('length', footM, 'ft', ['ft', 'foot', 'feet', "'", '′']),
  in: unit('length', footM / 12, 'in', ['in', 'inch', 'inches', '"', '″']),

  pH: unit('acidity', 1, 'pH', ['ph']),
  'kJ/kg': unit('energy-per-mass', 0.001, 'kJ/kg', ['kj/kg']),
  'MJ/kg': unit('energy-per-mass', 1, 'MJ/kg', ['mj/kg']),
  'g I2/100 g': unit('iodine-value', 1, 'g I2/100 g', ['g i 2/100 g', 'g/100 g']),
  'mm2/s': unit('viscosity', 1, 'mm²/s', ['mm2/s', 'mm²/s', 'cst', 'centistoke']),
  money: unit('money', 1, '', []),
} satisfies Record<string, Unit>;

export type UnitId = keyof typeof unitTable;
