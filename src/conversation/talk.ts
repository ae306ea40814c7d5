import type { View } from './view.ts';

/** What a face may do with something that talks: show what it asks and pass on what was typed. */
export interface Talk {
  /** What stands below the finished turns now. */
  view(): View;
  /** Nothing more will be asked. */
  readonly over: boolean;
  type(line: string): Promise<void>;
}
