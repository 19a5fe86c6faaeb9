import { whole, type HeaderReader } from './header-reader.ts';
import type { StoredSize } from './picture-size.ts';

/** Size of the logical screen (GIF89a, section 18). @throws RangeError where the bytes end early. */
export function* gifSize(): HeaderReader<StoredSize> {
  const view = yield* whole(6, 4);
  return { width: view.getUint16(0, true), height: view.getUint16(2, true), orientation: 1 };
}
