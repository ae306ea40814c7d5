/** The version that this program writes. Older ones are upgraded on reading, newer ones refused. */
export const recordVersion = 2;

/** `prev` of the first record. */
export const noHash = '0'.repeat(64);
