/** Names of conditions in an evaluation: one for each place where a rule file may write a condition. */
export const adviceKey = (id: string): string => `advice:${id}`;
export const askKey = (question: string): string => `ask:${question}`;
export const leaveKey = (stage: string, index: number): string => `leave:${stage}:${index}`;
export const unsafeToLeaveKey = (stage: string, index: number): string => `stay:${stage}:${index}`;
export const hazardKey = (id: string): string => `stop:${id}`;
export const wayKey = (stop: string, index: number): string => `way:${stop}:${index}`;
export const clearKey = (id: string): string => `clear:${id}`;
