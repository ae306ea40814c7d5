import * as z from 'zod';
import { isUnitId, type UnitId } from '../quantity/units.ts';

const unit = z.custom<UnitId>(
  (value) => typeof value === 'string' && isUnitId(value),
  'is no unit that we know',
);
const number = '-?\\d+(?:\\.\\d+)?';
const bandPattern = new RegExp(`^(?:(<=|>=|<|>) (${number})|(${number}) to (${number}))$`);

/** Choices that are bands of a reading, so that the reading itself can be typed. */
export const bandsSchema = z.strictObject({
  unit,
  of: z
    .record(z.string(), z.string().regex(bandPattern, 'a band is written like "< 10", "10 to 25" or "> 25"'))
    .describe('the band of each choice, both ends within; of two that hold a reading the first counts'),
});
export type Bands = z.infer<typeof bandsSchema>;

function holds(band: string, value: number): boolean {
  const [, sign, bound, low, high] = bandPattern.exec(band) ?? [];
  if (low !== undefined) return value >= Number(low) && value <= Number(high);
  const limit = Number(bound);
  if (sign === '<') return value < limit;
  if (sign === '<=') return value <= limit;
  return sign === '>' ? value > limit : value >= limit;
}

/** The choice in whose band a reading lies; the reading is in the bands' unit. */
export function bandOf({ of }: Bands, value: number): string | undefined {
  return Object.entries(of).find(([, band]) => holds(band, value))?.[0];
}
