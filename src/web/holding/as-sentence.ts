/** A line of the command as a sentence of a page. */
export const asSentence = (line: string): string => `${line.charAt(0).toUpperCase()}${line.slice(1)}.`;
