/** The stop nearest to a place, all in pixels; 0 where there is none. */
export function nearestStop(stops: readonly number[], x: number): number {
  let nearest = 0;
  stops.forEach((stop, index) => {
    if (Math.abs(stop - x) < Math.abs((stops[nearest] ?? Infinity) - x)) nearest = index;
  });
  return nearest;
}

/** Where a key takes the cursor; null for a key that does not move it. */
export function steppedStop(key: string, stop: number, count: number): number | null {
  const last = count - 1;
  switch (key) {
    case 'ArrowLeft':
    case 'ArrowDown':
      return Math.max(stop - 1, 0);
    case 'ArrowRight':
    case 'ArrowUp':
      return Math.min(stop + 1, last);
    case 'Home':
      return 0;
    case 'End':
      return last;
    default:
      return null;
  }
}

/** The stop that a line of the text belongs to: the last film at or above it; null where the line is before all of them. */
export function stopAtLine(
  films: readonly { readonly day: number; readonly line: number }[],
  days: readonly number[],
  line: number | null,
): number | null {
  if (line === null) return null;
  let nearest: { readonly day: number; readonly line: number } | null = null;
  for (const film of films) if (film.line <= line && film.line > (nearest?.line ?? -1)) nearest = film;
  return nearest && days.indexOf(nearest.day);
}
