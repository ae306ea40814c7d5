import { bedCalculation } from './bed.ts';
import { blendCalculation } from './blend.ts';
import type { Calculation } from './calculation.ts';
import { coolCalculation } from './cool.ts';
import { costCalculation } from './cost.ts';
import { doseCalculation } from './dose.ts';
import { flashCalculation } from './flash.ts';
import { forecastCalculation } from './forecast.ts';
import { fuelCalculation } from './fuel.ts';
import { heatCalculation } from './heat.ts';
import { balanceCalculation } from './layers.ts';
import { methanolCalculation } from './methanol.ts';
import { boilingCalculation } from './methanol-boiling.ts';
import { methoxideHeatCalculation } from './methoxide-heat.ts';
import { pretreatCalculation } from './pretreat.ts';
import { secondStageCalculation } from './second-stage.ts';
import { alkaliCalculation, soapCalculation } from './soap.ts';
import { strengthCalculation } from './strength.ts';
import { titrationCalculation } from './titration.ts';
import { vapourCalculation } from './vapour.ts';
import { volumeCalculation } from './volume.ts';
import { waterCalculation, waterReleaseCalculation } from './water.ts';

const all: readonly Calculation[] = [
  titrationCalculation,
  strengthCalculation,
  doseCalculation,
  methanolCalculation,
  volumeCalculation,
  boilingCalculation,
  blendCalculation,
  pretreatCalculation,
  forecastCalculation,
  secondStageCalculation,
  heatCalculation,
  waterCalculation,
  waterReleaseCalculation,
  soapCalculation,
  alkaliCalculation,
  bedCalculation,
  balanceCalculation,
  methoxideHeatCalculation,
  flashCalculation,
  vapourCalculation,
  coolCalculation,
  fuelCalculation,
  costCalculation,
];

/** Every calculation by its name. */
export const calculations: Record<string, Calculation> = Object.fromEntries(
  all.map((calculation) => [calculation.name, calculation]),
);
