import { describe, expect, test } from 'vitest';
import { type QuantityOptions, readQuantity } from '../../src/quantity/read-quantity.ts';
import type { UnitId } from '../../src/quantity/units.ts';

// Words as makers type them: common practice, no source. Conversion factors are checked in units.test.ts.

function read(text: string, options: QuantityOptions) {
  const result = readQuantity(text, options);
  if ('problem' in result) throw new Error(`${text}: ${result.problem}: ${result.say}`);
  return result;
}

type Row = [typed: string, asked: UnitId, value: number, unit: UnitId];

const temperatures: Row[] = [
  ['130F', 'degC', 130, 'degF'],
  ['130 f', 'degC', 130, 'degF'],
  ['130 °F', 'degC', 130, 'degF'],
  ['130ºF', 'degC', 130, 'degF'],
  ['130℉', 'degC', 130, 'degF'],
  ['130 degrees F', 'degC', 130, 'degF'],
  ['130 deg. F', 'degC', 130, 'degF'],
  ['130 farenheit', 'degC', 130, 'degF'],
  ['a hundred and thirty fahrenheit', 'degC', 130, 'degF'],
  ['54 C', 'degC', 54, 'degC'],
  ['54°C', 'degC', 54, 'degC'],
  ['54,5 celsius', 'degC', 54.5, 'degC'],
  ['-5 C', 'degC', -5, 'degC'],
  ['minus five C', 'degC', -5, 'degC'],
  ['it shows 54 C now', 'degC', 54, 'degC'],
  ['130 F and the bubbles have stopped', 'degC', 130, 'degF'],
  ['40 gal at 130 F', 'degC', 130, 'degF'],
  ['tank 2 130 F', 'degC', 130, 'degF'],
  ['130 F (54 C)', 'degC', 130, 'degF'],
  ['54 C / 130 F', 'degC', 54, 'degC'],
  ['5 F', 'K', 5, 'degFdiff'],
  ['3 C', 'K', 3, 'K'],
];

const volumes: Row[] = [
  ['40 gal', 'L', 40, 'galUS'],
  ['40 gallons', 'L', 40, 'galUS'],
  ['40 gal.', 'L', 40, 'galUS'],
  ['40 US gallons', 'L', 40, 'galUS'],
  ['40 imperial gallons', 'L', 40, 'galImp'],
  ['40 imp. gal', 'L', 40, 'galImp'],
  ['5-gallon bucket', 'L', 5, 'galUS'],
  ['150 litres', 'L', 150, 'L'],
  ['150 liters of oil', 'L', 150, 'L'],
  ['1.5l', 'L', 1.5, 'L'],
  ['a litre', 'L', 1, 'L'],
  ['a litre and a half', 'L', 1.5, 'L'],
  ['three quarters of a gallon', 'L', 0.75, 'galUS'],
  ['2 quarts', 'L', 2, 'quart'],
  ['a pint', 'L', 1, 'pint'],
  ['half a cup', 'mL', 0.5, 'cup'],
  ['a cup', 'mL', 1, 'cup'],
  ['a quarter of a cup', 'mL', 0.25, 'cup'],
  ['2 1/2 ml', 'mL', 2.5, 'mL'],
  ['2½ mL', 'mL', 2.5, 'mL'],
  ['2,5 ml', 'mL', 2.5, 'mL'],
  ['2.5 ML', 'mL', 2.5, 'mL'],
  ['two and a half mils', 'mL', 2.5, 'mL'],
  ['2.5 cc', 'mL', 2.5, 'mL'],
  ['50 cl', 'mL', 50, 'cL'],
  ['4 fl oz', 'mL', 4, 'flozUS'],
  ['4 fl. oz.', 'mL', 4, 'flozUS'],
  ['2 tablespoons', 'mL', 2, 'tbsp'],
  ['1 tsp', 'mL', 1, 'tsp'],
  ['1 gal 2 qt', 'L', 6, 'quart'],
  ['1 m3', 'L', 1, 'm3'],
  ['40 gal US', 'L', 40, 'galUS'],
  ['40 gallons (imperial)', 'L', 40, 'galImp'],
  ['40 (gal)', 'L', 40, 'galUS'],
  ['tank 3 40 gal', 'L', 40, 'galUS'],
  ['one cup and a quarter', 'mL', 1.25, 'cup'],
  ['twenty-two point five ml', 'mL', 22.5, 'mL'],
  ['2nd titration 2.5 ml', 'mL', 2.5, 'mL'],
  ['half to three quarters of a cup', 'mL', 0.625, 'cup'],
];

const times: Row[] = [
  ['90 minutes', 'min', 90, 'min'],
  ['90m', 'min', 90, 'min'],
  ['an hour and a half', 'min', 1.5, 'h'],
  ['one and a half hours', 'min', 1.5, 'h'],
  ['half an hour', 'min', 0.5, 'h'],
  ['three quarters of an hour', 'min', 0.75, 'h'],
  ['1 h 20', 'min', 80, 'min'],
  ['1h20m', 'min', 80, 'min'],
  ['1 hr. 20 min.', 'min', 80, 'min'],
  ['1 hour and 20 minutes', 'min', 80, 'min'],
  ['1:30 h', 'min', 90, 'min'],
  ['1:30:00', 'min', 90, 'min'],
  ['1:30 min', 'min', 1.5, 'min'],
  ['two days', 'h', 2, 'day'],
  ['hour and a half', 'min', 1.5, 'h'],
  ['a quarter hour', 'min', 0.25, 'h'],
  ['half-hour', 'min', 0.5, 'h'],
  ['2h30', 'min', 150, 'min'],
  ['a week', 'h', 1, 'week'],
  ['30 secs', 's', 30, 's'],
];

const weights: Row[] = [
  ['350 g', 'g', 350, 'g'],
  ['350 grams', 'g', 350, 'g'],
  ['a kilo', 'g', 1, 'kg'],
  ['one and a half kilos', 'g', 1.5, 'kg'],
  ['2 lb 3 oz', 'g', 35, 'oz'],
  ['2 lbs', 'kg', 2, 'lb'],
  ['2 lb 3', 'g', 35, 'oz'],
  ['3 kilos 200', 'g', 3200, 'g'],
  ['500 mg', 'g', 500, 'mg'],
];

const others: Row[] = [
  ['20 %', '%', 20, '%'],
  ['20 per cent', '%', 20, '%'],
  ['half a percent', '%', 0.5, '%'],
  ['500 ppm', '%', 500, 'ppm'],
  ['9 g/L', 'g/L', 9, 'g/L'],
  ['9 grams per litre', 'g/L', 9, 'g/L'],
  ['9 g a litre', 'g/L', 9, 'g/L'],
  ['30 g per gallon', 'g/L', 30, 'g/galUS'],
  ['0.92 kg/l', 'g/mL', 0.92, 'g/mL'],
  ['0.01 M', 'mol/L', 0.01, 'mol/L'],
  ['5 mg KOH/g', 'mg KOH/g', 5, 'mg KOH/g'],
  ['5 gallons a minute', 'L/min', 5, 'galUS/min'],
  ['2 bed volumes per hour', 'BV/h', 2, 'BV/h'],
  ['4 air changes per hour', '1/h', 4, '1/h'],
  ['2 kW', 'W', 2, 'kW'],
  ['3.5 kwh', 'kWh', 3.5, 'kWh'],
  ['15 psi', 'kPa', 15, 'psi'],
  ['5000 ft', 'm', 5000, 'ft'],
  ['5 ft 6 in', 'm', 66, 'in'],
  ['5\'6"', 'm', 66, 'in'],
  ['5 ft 6', 'm', 66, 'in'],
  ['pH 7', 'pH', 7, 'pH'],
  ['pH7.5', 'pH', 7.5, 'pH'],
  ['the pH is 8', 'pH', 8, 'pH'],
];

test.each([...temperatures, ...volumes, ...times, ...weights, ...others])(
  '"%s" answers a question in %s as %d %s',
  (typed, asked, value, unit) => {
    const result = read(typed, { unit: asked });
    expect(result.typed.unit).toBe(unit);
    expect(result.typed.value).toBeCloseTo(value, 9);
    expect(result.unit).toBe(asked);
    expect(result.typed.unitAssumed).toBeUndefined();
  },
);

test.each([
  ['130', 'degF', 130],
  ['about 130 degrees', 'degF', 130],
  ['130 in the tank', 'degF', 130],
  ['tank 2 is at 130', 'degF', 130],
  ['130 at 3pm', 'degF', 130],
  ['54 point five', 'degC', 54.5],
  ['"130"', 'degF', 130],
  ['2.5', 'mL', 2.5],
  ['two and a half', 'mL', 2.5],
  ['half', 'cup', 0.5],
  ['3 batches', '1', 3],
  ['$5', 'money', 5],
] satisfies [string, UnitId, number][])(
  '"%s" takes the usual unit of the question, and says so',
  (typed, usual, value) => {
    const result = read(typed, { defaultUnit: usual });
    expect(result).toMatchObject({ value, unit: usual, typed: { value, unit: usual, unitAssumed: true } });
  },
);

describe('a gallon that could be either', () => {
  test('is taken as the maker said in the set-up, and the answer says that it was taken so', () => {
    expect(read('40 gal', { unit: 'L', gallon: 'imperial' })).toMatchObject({
      typed: { unit: 'galImp', gallonAssumed: 'imperial' },
    });
    expect(read('40 gal', { unit: 'L' })).toMatchObject({ typed: { unit: 'galUS', gallonAssumed: 'US' } });
    expect(read('2 pints', { unit: 'L', gallon: 'imperial' }).value).toBeCloseTo(1.13652, 5);
  });
  test('is not assumed when the line names it', () => {
    expect(read('40 US gal', { unit: 'L', gallon: 'imperial' }).typed).toEqual({ value: 40, unit: 'galUS' });
  });
});

describe('± and ranges', () => {
  test.each([
    ['130 F ± 9', 'degC', 5],
    ['130 ± 9 F', 'degC', 5],
    ['54 C ± 9 F', 'degC', 5],
    ['54 to 60 C', 'degC', 3],
    ['54 C to 60 C', 'degC', 3],
    ['between 54 and 60 C', 'degC', 3],
    ['100 L ± 5%', 'L', 5],
    ['5 % ± 0.5 %', '%', 0.5],
    ['2 to 3 hours', 'min', 30],
  ] satisfies [string, UnitId, number][])(
    '"%s" comes with ± in the unit asked for',
    (typed, unit, plusMinus) => {
      expect(read(typed, { unit }).plusMinus).toBeCloseTo(plusMinus, 9);
    },
  );
  test('a number that is only a limit stays one', () => {
    expect(read('less than 0.5 ml', { unit: 'mL' })).toMatchObject({ value: 0.5, bound: 'below' });
  });
});

test.each([
  ['5 lb', 'L', 'wrong-unit', /5 lb is a weight, and I need a volume/],
  ['5 L', 'g', 'wrong-unit', /5 L is a volume, and I need a weight/],
  ['130 lb', 'degC', 'wrong-unit', /54 °C or 130 °F/],
  ['130 degrees', 'L', 'wrong-unit', /temperature/],
  ['5 g/L', 'g', 'wrong-unit', /I need a weight/],
  ['5 L', 'day', 'wrong-unit', /a length of time: for example 3 days\./],
  ['5 L', 'g/L', 'wrong-unit', /for example 9 g\/L\./],
  ['5 gal a minute', 'L', 'wrong-unit', /is a flow/],
  ['20 %', 'L', 'wrong-unit', /is a share/],
  ['5 %', '1', 'wrong-unit', /plain number/],
  ['2.5 min', 'mL', 'wrong-unit', /2\.5 mL/],
  ['3 drops', 'mL', 'unknown-unit', /drop has no fixed size/],
  ['2 buckets', 'L', 'unknown-unit', /many sizes/],
  ['a couple of handfuls', 'g', 'unknown-unit', /weigh it/],
  ['4 oz', 'mL', 'unknown-unit', /fl oz/],
  ['0.01 N', 'mol/L', 'unknown-unit', /depends on the acid/],
  ['2.5 furlongs', 'mL', 'unknown-unit', /'furlongs'/],
  ['130foo', 'degC', 'unknown-unit', /'foo'/],
  ['5 g per cup', 'g', 'unknown-unit', /g\/cup/],
  ['half full', 'L', 'unknown-unit', /'full'/],
  ['1,000 L', 'L', 'ambiguous', /1000 L or 1 L/],
  ['2 x 20 L', 'L', 'ambiguous', /40 L or 20 L/],
  ['40 + 5 gal', 'L', 'ambiguous', /170 L or 18\.9 L/],
  ['2.50 mL and 2.52 mL', 'mL', 'ambiguous', /2\.5 mL or 2\.52 mL/],
  ['2.4, 2.5, 2.6 ml', 'mL', 'ambiguous', /2\.6 mL or 2\.5 mL or 2\.4 mL/],
  ['2.5 ml and 2.7', 'mL', 'ambiguous', /2\.5 mL or 2\.7 mL/],
  ['two 5 gallon buckets', 'L', 'ambiguous', /37\.9 L or 18\.9 L/],
  ['one thirty F', 'degF', 'ambiguous', /130 °F or 30 °F/],
  ['two fifty mils', 'mL', 'ambiguous', /250 mL or 50 mL/],
  ['quarter to three', 'min', 'unknown-unit', /90 min or 1\.5 h/],
  ['130 F, 60 C', 'degC', 'ambiguous', /54 °C or 60 °C/],
  ['1:30', 'min', 'ambiguous', /90 min or 1\.5 min/],
  ['not 130 F', 'degC', 'no-number', /I need a temperature/],
  ['2.5.3', 'mL', 'no-number', /2\.5 mL/],
  ['overnight', 'min', 'no-number', /90 min or 1\.5 h/],
  ['cloudy', 'degC', 'no-number', /54 °C/],
] satisfies [string, UnitId, string, RegExp][])(
  '"%s" for %s is not taken (%s), and the maker hears what would be',
  (typed, unit, problem, say) => {
    const result = readQuantity(typed, { unit });
    expect(result).toMatchObject({ problem });
    expect('problem' in result && result.say.replaceAll('\u00a0', ' ')).toMatch(say);
  },
);

test('a bare number is not given a unit when the question has no usual one', () => {
  expect(readQuantity('40', { dimension: 'volume' })).toMatchObject({ problem: 'unknown-unit' });
  expect(read('40 gal', { dimension: 'volume' })).toMatchObject({ unit: 'L', typed: { unit: 'galUS' } });
});

describe('the plausible range of the question settles a doubtful comma', () => {
  test('when one reading lies inside', () => {
    expect(read('1,000 L', { unit: 'L', plausible: [10, 2000] }).value).toBe(1000);
    expect(read('1.035 g', { unit: 'g', plausible: [0, 5] }).value).toBe(1.035);
    expect(read('1 000 L', { unit: 'L', plausible: [10, 2000] }).value).toBe(1000);
  });
  test('and is still asked about when both do, or neither', () => {
    expect(readQuantity('1,000 L', { unit: 'L', plausible: [0, 2000] })).toMatchObject({
      problem: 'ambiguous',
      readings: [1000, 1],
    });
    expect(readQuantity('1,000 L', { unit: 'L', plausible: [5, 10] })).toMatchObject({
      problem: 'ambiguous',
    });
  });
});

test('a second number that answers something else is left alone', () => {
  expect(read('40 gal, 130', { unit: 'L' }).typed).toMatchObject({ value: 40, unit: 'galUS' });
  expect(read('40 gal at 54', { unit: 'L' }).typed).toMatchObject({ value: 40, unit: 'galUS' });
});

test('the place of the answer in the line is given, so that the rest can answer something else', () => {
  const line = 'so about 40 gallons at 130 F';
  const span = (unit: UnitId) => {
    const { spanStart, spanEnd } = read(line, { unit });
    return line.slice(spanStart, spanEnd);
  };
  expect(span('L')).toBe('about 40 gallons');
  expect(span('degC')).toBe('130 F');
});
