declare const __VERSION__: string;

/** The program and its version, as logs name it. */
export const program = `batchside ${__VERSION__}`;
