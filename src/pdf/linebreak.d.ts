/** What is used of it; the package comes without types. */
declare module 'linebreak' {
  export default class LineBreaker {
    constructor(text: string);
    /** Null at the end of the text. */
    nextBreak(): { readonly position: number; readonly required?: boolean } | null;
  }
}
