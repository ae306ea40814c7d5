import {
  liquidDensityGPerMl,
  METHANOL_AT_20C_G_PER_ML,
  OIL_AT_20C_G_PER_ML,
} from '../../src/chemistry/liquid-density.ts';
import { methanolForRatioL } from '../../src/chemistry/methanol.ts';
import {
  airPressureKPa,
  methanolBoilingPointK,
  methanolVapourPressureByAmbroseKPa,
  methanolVapourPressureKPa,
} from '../../src/chemistry/methanol-boiling.ts';
import { celsiusOf, fromSource, kelvin, type PublishedCheck } from './published-check.ts';
import { run, runFor } from './run.ts';

const eosPressure = fromSource('de-reuck-craven-1993', 'looked-up')('saturation pressure', 'kPa', {
  percent: 1,
});
const eosDensity = fromSource('de-reuck-craven-1993', 'looked-up')('saturated liquid', 'g/mL', {
  percent: 0.05,
});

const PRESSURES: readonly (readonly [number, number])[] = [
  [10, 7.43842],
  [20, 13.0317],
  [25, 16.9814],
  [40, 35.5183],
  [50, 55.6843],
  [60, 84.7132],
  [70, 125.409],
  [80, 181.113],
  [90, 255.727],
  [100, 353.735],
];
// Our curve is drawn through 0, 20 and 60 degC, which are left out here.
const DENSITIES: readonly (readonly [number, number])[] = [
  [10, 0.8004],
  [15, 0.7957],
  [25, 0.7863],
  [30, 0.7816],
  [40, 0.7722],
  [50, 0.7626],
];

// Printed in feet and pounds on the square inch.
const atmosphere = fromSource('us-standard-atmosphere-1976', 'looked-up')(
  'handbook table made from it, in ft and psi',
  'kPa',
  { percent: 0.1 },
);
const AIR: readonly (readonly [number, number])[] = [
  [-1000, 15.236],
  [1000, 14.175],
  [3000, 13.173],
  [5000, 12.23],
  [10_000, 10.108],
];
const PSI_KPA = 6.894757;

/** Parts per million that the calculation gives for so many milligrams in each cubic metre. */
function ppmOf(milligramPerM3: number): number {
  const liquid = (milligramPerM3 * 100) / 1000 / 0.7863;
  return runFor('vapour', 'ppm', { liquid, room: 100 });
}

const limit = fromSource('niosh-idlh', 'looked-up');

const vapour: readonly PublishedCheck[] = [
  limit('200 ppm stands beside 262 mg/m3', 'ppm', { percent: 0.5 })(
    'vapour',
    '262 mg of methanol in a cubic metre of air',
    200,
    () => ppmOf(262),
    'The older limit of 260 mg/m3 beside it is rounded.',
  ),
  limit('250 ppm stands beside 328 mg/m3', 'ppm', { percent: 0.5 })(
    'vapour',
    '328 mg of methanol in a cubic metre of air',
    250,
    () => ppmOf(328),
  ),
  limit('6000 ppm is a tenth of the lower explosive limit', '%', { percent: 0.5 })(
    'vapour',
    'share of the lower flammable limit at 6000 ppm',
    10,
    () => {
      const { lflPercent = Number.NaN, ppm = Number.NaN } = run('vapour', { liquid: 300, room: 30 });
      return (lflPercent / ppm) * 6000;
    },
  ),
];

export const methanolChecks: readonly PublishedCheck[] = [
  ...PRESSURES.map(([celsius, kPa]) =>
    eosPressure('methanolVapourPressureKPa', `vapour pressure of methanol at ${celsius} °C`, kPa, () =>
      methanolVapourPressureKPa(kelvin(celsius)),
    ),
  ),
  ...PRESSURES.filter(([celsius]) => celsius === 25 || celsius === 60).map(([celsius, kPa]) =>
    eosPressure(
      'methanolVapourPressureByAmbroseKPa',
      `the same by the second fit at ${celsius} °C`,
      kPa,
      () => methanolVapourPressureByAmbroseKPa(kelvin(celsius)),
    ),
  ),
  fromSource('nrc-lcss-methanol', 'looked-up')('96 mmHg', 'kPa', { percent: 3 })(
    'methanolVapourPressureKPa',
    'vapour pressure of methanol at 20 °C as a safety sheet gives it',
    96 * 0.1333224,
    () => methanolVapourPressureKPa(kelvin(20)),
  ),
  fromSource('handbook', 'looked-up')('normal boiling point', 'degC', { absolute: 0.3 })(
    'boiling',
    'boiling point of methanol at sea level',
    64.7,
    () => runFor('boiling', 'boilingPoint', { altitude: 0 }),
  ),
  fromSource('methanol-sds', 'looked-up')('148 °F', 'degC', { absolute: 0.5 })(
    'methanolBoilingPointK',
    'boiling point of methanol on safety sheets',
    celsiusOf(148),
    () => methanolBoilingPointK(101.325) - 273.15,
  ),
  ...AIR.map(([feet, psi]) =>
    atmosphere('airPressureKPa', `air pressure at ${feet} ft, ${psi} psi`, psi * PSI_KPA, () =>
      airPressureKPa(feet * 0.3048),
    ),
  ),
  ...DENSITIES.map(([celsius, density]) =>
    eosDensity('liquidDensityGPerMl', `density of methanol at ${celsius} °C`, density, () =>
      liquidDensityGPerMl('methanol', kelvin(celsius)),
    ),
  ),
  fromSource('handbook', 'from-memory')('methanol, density at 20 °C', 'g/mL', { percent: 0.1 })(
    'volume',
    'mass of a litre of methanol at 20 °C, kg',
    0.7914,
    () => runFor('volume', 'mass', { volume: 1, temperature: 20, liquid: 'methanol' }),
  ),
  fromSource('nrel-2004', 'from-memory')('methanol for 6 to 1, 0.217 g/g', '1', { absolute: 0.0005 })(
    'methanolForRatioL',
    'methanol on triglyceride by mass at 6 to 1',
    0.217,
    () => (methanolForRatioL(6, 100, 885.453) * METHANOL_AT_20C_G_PER_ML) / (100 * OIL_AT_20C_G_PER_ML),
  ),
  ...vapour,
];
