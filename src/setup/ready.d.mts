export interface Needs {
  readonly packages?: boolean;
  readonly program?: boolean;
  readonly rebuild?: boolean;
}
export const ROOT: string;
export function ready(root: string, needs?: Needs): Promise<void>;
export function refuseOldNode(version: string): void;
