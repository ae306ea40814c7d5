import { convert, convertSpread, type UnitId, unitOf } from './units.ts';

export interface ShowOptions {
  plusMinus?: number;
  /** Significant digits that the value supports; used when there is no ±. */
  digits?: number;
  /** Turn into the unit that makers use in this system, where there is one. */
  system?: 'metric' | 'US';
}

export interface BothOptions {
  plusMinus?: number;
  digits?: number;
  /** What the maker typed: shown first. */
  typedUnit?: UnitId;
}

const noBreakSpace = '\u00a0';
const notKnown = 'not known';
const convertedDigits = 3;
// A ± smaller than this share of the value is the rounding of the machine, not a measurement.
const roundingNoise = 1e-9;

// Small laboratory volumes and weighed alkali have no second unit on purpose: one number to read off.
const usPartner: Partial<Record<UnitId, UnitId>> = {
  degC: 'degF',
  K: 'degFdiff',
  L: 'galUS',
  kg: 'lb',
  kPa: 'psi',
  bar: 'psi',
  m: 'ft',
  cm: 'in',
  'L/min': 'galUS/min',
  'L/h': 'galUS/h',
};

const metricPartner: Partial<Record<UnitId, UnitId>> = {
  degF: 'degC',
  degFdiff: 'K',
  galUS: 'L',
  galImp: 'L',
  pint: 'L',
  pintImp: 'L',
  quart: 'L',
  quartImp: 'L',
  cup: 'mL',
  flozUS: 'mL',
  flozImp: 'mL',
  tsp: 'mL',
  tbsp: 'mL',
  lb: 'kg',
  oz: 'g',
  psi: 'kPa',
  ft: 'm',
  in: 'cm',
  'galUS/min': 'L/min',
  'galUS/h': 'L/h',
  'g/galUS': 'g/L',
};

function exponentOf(value: number): number {
  return value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
}

/** Rounded to so many places; negative places round to tens, hundreds. */
function fixed(value: number, places: number): string {
  if (Math.abs(value) >= 1e15 || places > 12) return scientific(value);
  const scale = 10 ** Math.max(0, -places);
  const rounded = places > 0 ? value.toFixed(places) : (Math.round(value / scale) * scale).toFixed(0);
  return /^-[0.]+$/.test(rounded) ? rounded.slice(1) : rounded;
}

function scientific(value: number): string {
  const [mantissa, exponent] = value.toExponential(2).split('e');
  return value === 0 ? '0' : `${mantissa} × 10^${Number(exponent)}`;
}

function withoutTrailingZeros(text: string): string {
  return /^-?\d+\.\d+$/.test(text) ? text.replace(/\.?0+$/, '') : text;
}

/** One significant digit of the ±, two when it starts with 1. */
function placesOfSpread(plusMinus: number): number {
  const exponent = exponentOf(plusMinus);
  const leading = Math.floor(plusMinus / 10 ** exponent + 1e-9);
  return (leading === 1 ? 1 : 0) - exponent;
}

function isPointTemperature(unit: UnitId): boolean {
  return unit === 'degC' || unit === 'degF';
}

/** Three digits, never rounding whole units away; a temperature in whole degrees unless typed in tenths. */
function plain(value: number, unit: UnitId): string {
  if (isPointTemperature(unit)) {
    const tenths = Math.abs(value * 10 - Math.round(value * 10)) < 1e-6;
    return withoutTrailingZeros(fixed(value, tenths ? 1 : 0));
  }
  return withoutTrailingZeros(fixed(value, Math.max(0, convertedDigits - 1 - exponentOf(value))));
}

function toDigits(value: number, digits: number): string {
  if (value === 0) return '0';
  const rounded = Number(value.toPrecision(Math.min(Math.max(1, Math.round(digits)), 15)));
  if (!Number.isFinite(rounded)) return scientific(value);
  return fixed(rounded, digits - 1 - exponentOf(rounded));
}

function numberText(value: number, unit: UnitId, options: ShowOptions): string {
  const spread = Math.abs(options.plusMinus ?? 0);
  const counts = spread > Math.abs(value) * roundingNoise;
  if (counts && Number.isFinite(spread)) {
    const places = placesOfSpread(spread);
    return `${fixed(value, places)} ± ${fixed(spread, places)}`;
  }
  return options.digits === undefined ? plain(value, unit) : toDigits(value, options.digits);
}

function withUnit(text: string, unit: UnitId): string {
  const [one, many] = unitOf(unit).shown;
  if (unit === 'pH') return `pH${noBreakSpace}${text}`;
  const name = text === '1' || text === '-1' ? one : many;
  return name === '' ? text : text + noBreakSpace + name;
}

function inSystem(unit: UnitId, system: 'metric' | 'US' | undefined): UnitId {
  if (system === 'US') return usPartner[unit] ?? unit;
  if (system === 'metric') return metricPartner[unit] ?? unit;
  return unit;
}

/**
 * A quantity as it is read on the screen: no more digits than its ± supports, a no-break space before
 * the unit, thousands not grouped.
 * @example showQuantity(10.62, 'g/L', { plusMinus: 0.41 }) // 10.6 ± 0.4 g/L
 */
export function showQuantity(value: number, unit: UnitId, options: ShowOptions = {}): string {
  if (!Number.isFinite(value)) return notKnown;
  const target = inSystem(unit, options.system);
  const shown = convert(value, unit, target);
  if (!Number.isFinite(shown)) return notKnown;
  if (options.plusMinus === undefined) return withUnit(numberText(shown, target, options), target);
  const plusMinus = convertSpread(options.plusMinus, unit, target);
  const text = withUnit(numberText(shown, target, { ...options, plusMinus }), target);
  return Number.isFinite(plusMinus) ? text : `${text} (± ${notKnown})`;
}

/**
 * The same quantity for a metric and a US reader; what was typed comes first.
 * @example bothSystems(54.444, 'degC') // 54 °C (130 °F)
 * @example bothSystems(151.416, 'L', { typedUnit: 'galUS' }) // 40 gal (151 L)
 */
export function bothSystems(value: number, unit: UnitId, options: BothOptions = {}): string {
  if (!Number.isFinite(value)) return notKnown;
  const first = options.typedUnit ?? unit;
  const second = usPartner[first] ?? metricPartner[first] ?? (first === unit ? undefined : unit);
  const inFirst = showIn(value, unit, first, options);
  return second === undefined ? inFirst : `${inFirst} (${showIn(value, unit, second, options)})`;
}

function showIn(value: number, unit: UnitId, target: UnitId, options: BothOptions): string {
  const shared: ShowOptions = options.digits === undefined ? {} : { digits: options.digits };
  if (options.plusMinus !== undefined) shared.plusMinus = convertSpread(options.plusMinus, unit, target);
  return showQuantity(convert(value, unit, target), target, shared);
}
