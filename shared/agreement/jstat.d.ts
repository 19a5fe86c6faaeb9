// The parts of jStat that are used; the library brings no types.
declare module 'jstat' {
  interface Quantiles {
    readonly centralF: { inv(p: number, df1: number, df2: number): number };
    readonly studentt: { inv(p: number, df: number): number };
    readonly chisquare: { inv(p: number, df: number): number };
  }
  const jStat: Quantiles;
  export default jStat;
}
