export interface Machine {
  readonly abi: string;
  readonly platform: string;
  readonly arch: string;
}
export function installKey(root: string, machine?: Machine): string;
export function buildKey(root: string): string;
export function isInstalled(root: string): boolean;
export function isBuilt(root: string): boolean;
export function markInstalled(root: string, key?: string): void;
export function markBuilt(root: string, key: string, files: readonly string[]): void;
export function forgetInstalled(root: string): void;
export function readManifest(root: string): Record<string, unknown>;
