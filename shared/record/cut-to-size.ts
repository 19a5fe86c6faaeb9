/**
 * The same array without room to grow. One that things are pushed onto has room for 17 from the first on, and a long case
 * keeps thousands of them.
 */
export function cutToSize<T>(array: T[]): T[] {
  return array.length === 0 ? array : array.slice();
}
