/** A reason of the engine as a sentence: with a capital and a full stop. */
export const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
