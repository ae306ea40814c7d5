const ZERO_CELSIUS_K = 273.15;

/**
 * Absolute temperature of a Celsius reading.   T = t + 273.15
 * @param temperatureC  thermometer reading [degC], scalar
 * @returns             absolute temperature [K], scalar
 * @source nist-sp-811, definition of the Celsius scale
 * @example kelvinFromCelsius(20) // 293.15
 */
export function kelvinFromCelsius(temperatureC: number): number {
  return temperatureC + ZERO_CELSIUS_K;
}

/**
 * Celsius reading of an absolute temperature.   t = T - 273.15
 * @param temperatureK  absolute temperature [K], scalar
 * @returns             thermometer reading [degC], scalar
 * @source nist-sp-811, definition of the Celsius scale
 * @example celsiusFromKelvin(293.15) // 20
 */
export function celsiusFromKelvin(temperatureK: number): number {
  return temperatureK - ZERO_CELSIUS_K;
}
