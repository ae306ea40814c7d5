/** Reading of records whose form nobody has checked: what is not as it should be counts as not there. */

export function loose(value: unknown): Readonly<Record<string, unknown>> | undefined {
  return typeof value === 'object' && value !== null
    ? (value as Readonly<Record<string, unknown>>)
    : undefined;
}

export function textIn(value: unknown): string | undefined {
  return typeof value === 'string' ? value : undefined;
}

export function numberIn(value: unknown): number | undefined {
  return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
}

const none: readonly string[] = [];

export function textsIn(value: unknown): readonly string[] {
  return Array.isArray(value) ? value : none;
}
