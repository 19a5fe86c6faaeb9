/**
 * How many items from the first on something holds for. Items are in an order in which it holds for the first ones and for none
 * behind them, such as days up to one, ascending.
 */
export function countWhile<T>(items: readonly T[], holds: (item: T) => boolean): number {
  let [low, high] = [0, items.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(items[middle] as T)) low = middle + 1;
    else high = middle;
  }
  return low;
}
