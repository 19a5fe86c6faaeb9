import { useLayoutEffect, useState } from 'preact/hooks';
import type { RefObject } from 'preact';

/** Width of an element in CSS pixels, whole ones; 0 until it stands on the page. */
export function usePaneWidth(element: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(0);
  useLayoutEffect(() => {
    const { current } = element;
    if (!current) return;
    const measure = (): void => setWidth(Math.floor(current.clientWidth));
    const watch = new ResizeObserver(measure);
    watch.observe(current);
    measure();
    return () => watch.disconnect();
  }, []);
  return width;
}
