const tidy = (value: number): string =>
  Number.isFinite(value) ? String(Number(value.toPrecision(5))) : String(value);

/** Absolute temperatures are kept in kelvin but told in degrees Celsius, as a thermometer shows them. */
function told(value: number, unit: string): string {
  if (unit === 'K') return `${tidy(value - 273.15)} °C`;
  return unit === '1' ? tidy(value) : `${tidy(value)} ${unit}`;
}

function sentence(
  quantity: string,
  value: number,
  unit: string,
  low: number,
  high: number,
  source: string,
): string {
  const start = Number.isNaN(value)
    ? `The ${quantity} is not a number`
    : `The ${quantity} is ${told(value, unit)}`;
  const span =
    high === Number.POSITIVE_INFINITY
      ? `needs at least ${told(low, unit)}`
      : `holds from ${told(low, unit)} to ${told(high, unit)}`;
  return `${start}; this calculation ${span} (source: ${source}).`;
}

/** A quantity lies outside the range for which a formula was published or makes sense. */
export class OutOfRangeError extends Error {
  readonly quantity: string;
  readonly value: number;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly source: string;

  constructor(quantity: string, value: number, unit: string, low: number, high: number, source: string) {
    super(sentence(quantity, value, unit, low, high, source));
    this.name = 'OutOfRangeError';
    this.quantity = quantity;
    this.value = value;
    this.unit = unit;
    this.low = low;
    this.high = high;
    this.source = source;
  }
}
