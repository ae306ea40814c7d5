/** A line longer than this is no answer; reading it would only take time. */
export const longestLine = 2000;

/** Words that nobody types calmly: they open the alarm unless they are a plain answer to what is asked. */
const urgent =
  /\b(fire|flames?|burning|explo(?:sion|ded)|help me|hurt|injured|splashed|swallowed|collapsed|fainted|i (?:can )?smell (?:gas|smoke|alcohol|methanol|burning)|dizzy|cant breathe)\b/i;

export function isUrgent(text: string): boolean {
  return urgent.test(text.slice(0, longestLine).replace(/['’]/g, ''));
}
