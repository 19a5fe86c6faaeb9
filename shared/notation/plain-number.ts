/**
 * A number as the notation writes it, with digits and a point: JavaScript writes very small ones with an exponent, which is no number
 * in a case file. What is smaller than its twentieth decimal is a 0.
 */
export function plainNumber(value: number): string {
  const short = String(value + 0);
  if (!short.includes('e')) return short;
  const long = value.toFixed(20);
  return Number(long) === 0 ? '0' : long.replace(/\.?0+$/, '');
}
