/** A text between quotes, as a case file has it. @param text without line ends */
export const quoted = (text: string): string => `"${text.replace(/["\\]/g, '\\$&')}"`;
