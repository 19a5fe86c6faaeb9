/** How many pairs of numbers stand the wrong way round: the larger one before the smaller. Counted while they are merged into order. */
export function inversions(numbers: Float64Array): number {
  const { length } = numbers;
  let count = 0;
  let from = Float64Array.from(numbers);
  let to = new Float64Array(length);
  for (let width = 1; width < length; width *= 2) {
    for (let start = 0; start < length; start += 2 * width) {
      const middle = Math.min(start + width, length);
      const end = Math.min(start + 2 * width, length);
      let [left, right] = [start, middle];
      for (let place = start; place < end; place++) {
        const takesLeft = left < middle && (right >= end || (from[left] as number) <= (from[right] as number));
        if (!takesLeft) count += middle - left;
        to[place] = from[takesLeft ? left++ : right++] as number;
      }
    }
    [from, to] = [to, from];
  }
  return count;
}
