import { type EsterPhase, esterPhase, type GlycerideMasses } from './ester-phase.ts';
import { type Voice, voicesFor } from './forecast-models.ts';
import { mixturesAt, type RateLaw, startingMixture } from './kinetics.ts';
import { requireRange } from './require-range.ts';

/** A forecast and the ± that belongs to it, both as percents. */
export interface Outlook {
  expected: EsterPhase;
  plusMinus: EsterPhase;
}

export interface Batch {
  ratio: number;
  temperatureK: number;
  minutes: number;
  loadingPercent: number;
  masses: GlycerideMasses;
}

const MEASURED_RATIO = 6;
/** In the first minutes mixing sets the pace; no rate law here knows of mixing (Ma 1998, abstract read). */
const FIRST_MINUTES = 5;
/** A rate law may run twice as fast or half as fast: a pump stirs less than a laboratory does. */
const SPEED_FACTOR = 2;
/**
 * How far off the end of a reaction may be, in points. Ester 93 to 98 % after an hour at 6 to 1 with 1 % NaOH
 * (Freedman 1984, from memory); 1.1 to 1.6 % monoglyceride left beside 97.5 % ester (Mao 2004, looked up),
 * where every rate law here leaves less.
 */
const END_OFF: EsterPhase = {
  conversion: 3,
  triglyceride: 2,
  diglyceride: 1,
  monoglyceride: 1,
  bondedGlycerin: 0.4,
};

const eachKey = (value: (key: keyof EsterPhase) => number): EsterPhase => ({
  conversion: value('conversion'),
  triglyceride: value('triglyceride'),
  diglyceride: value('diglyceride'),
  monoglyceride: value('monoglyceride'),
  bondedGlycerin: value('bondedGlycerin'),
});

/** The phase after each of these times; the list is as long as the times. */
function phasesAt(law: RateLaw, batch: Batch, times: readonly number[]): EsterPhase[] {
  const { ratio, masses, temperatureK } = batch;
  const start = startingMixture(ratio, masses.triglyceride, temperatureK);
  return mixturesAt(law, start, times).map((mixture) => esterPhase(mixture, masses));
}

/** One rate law alone: what it says and its own error from speed, from methanol and at the end. */
function outlookOfVoice({ law, stretch }: Voice, batch: Batch): Outlook {
  const { minutes } = batch;
  const factor = Math.max(SPEED_FACTOR, stretch);
  const times = [minutes / factor, minutes, minutes * factor] as const;
  const [slow, expected, fast] = phasesAt(law, batch, times) as [EsterPhase, EsterPhase, EsterPhase];
  const [measured] = phasesAt(law, { ...batch, ratio: MEASURED_RATIO }, [minutes]) as [EsterPhase];
  const plusMinus = eachKey((key) => {
    // All speeds grow together, so running twice as fast is the same as running twice as long. On its way up
    // and down again an intermediate may be the same at both ends: the middle counts too.
    const bySpeed =
      (Math.max(slow[key], expected[key], fast[key]) - Math.min(slow[key], expected[key], fast[key])) / 2;
    return Math.hypot(bySpeed, (expected[key] - measured[key]) / 2, END_OFF[key]);
  });
  return { expected, plusMinus };
}

/**
 * Forecast of a batch from all published rate laws that speak for it: their mean by share. Its ± joins how
 * far they lie apart with the mean of their own errors.
 * @param batch  ratio [mol/mol], temperature [K], minutes [min], catalyst as NaOH [%], masses [g/mol], record
 *               of Batch
 * @returns      percents and their ± [%], record of Outlook
 * @throws OutOfRangeError  ratio outside 4.5..7.5 mol/mol, time outside 5..90 min, an oil outside 800..920
 *                          g/mol, loading and temperature as in voicesFor
 * @source worked-out, mean of noureddini-1997, darnoko-2000 and jansri-2011; errors from freedman-1984 and
 *         mao-2004
 * @example outlookFor({ ratio: 6, temperatureK: 323.15, minutes: 60, loadingPercent: 0.2,
 *          masses: glycerideMasses(profileFromText('soybean')) }).expected.conversion // 83.6
 */
export function outlookFor(batch: Batch): Outlook {
  requireRange('methanol ratio', batch.ratio, 'mol/mol', 4.5, 7.5, 'worked-out');
  requireRange('reaction time', batch.minutes, 'min', FIRST_MINUTES, 90, 'noureddini-1997');
  requireRange('molar mass of the oil', batch.masses.triglyceride, 'g/mol', 800, 920, 'worked-out');
  const told = voicesFor(batch.temperatureK, batch.loadingPercent, batch.masses).map((voice) => ({
    share: voice.share,
    ...outlookOfVoice(voice, batch),
  }));
  const mean = (value: (outlook: Outlook) => number): number =>
    told.reduce((sum, outlook) => sum + outlook.share * value(outlook), 0);
  const expected = eachKey((key) => mean((outlook) => outlook.expected[key]));
  const plusMinus = eachKey((key) => {
    const apart = Math.sqrt(mean((outlook) => (outlook.expected[key] - expected[key]) ** 2));
    return Math.hypot(
      apart,
      mean((outlook) => outlook.plusMinus[key]),
    );
  });
  return { expected, plusMinus };
}

/**
 * A forecast moved by a number of its own ±, kept inside 0 to 100 %.
 * @param outlook  forecast and ± [%], record of Outlook
 * @param by       how many ± every figure is moved [1], scalar
 * @returns        percents [%], record of EsterPhase
 * @throws OutOfRangeError  by outside -1..1
 * @source worked-out, the ± as one input
 * @example movedOutlook(outlookFor({ ratio: 6, temperatureK: 323.15, minutes: 60, loadingPercent: 0.2,
 *          masses: glycerideMasses(profileFromText('soybean')) }), 0).bondedGlycerin // 2.08
 */
export function movedOutlook(outlook: Outlook, by: number): EsterPhase {
  requireRange('shift of the forecast', by, '1', -1, 1, 'worked-out');
  const { expected, plusMinus } = outlook;
  return eachKey((key) => Math.min(100, Math.max(0, expected[key] + by * plusMinus[key])));
}
