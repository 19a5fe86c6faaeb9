// The part of mf-parser that the tests use; the library brings no types.
declare module 'mf-parser' {
  export class MF {
    constructor(formula: string);
    getInfo(): { mass: number };
  }
}
