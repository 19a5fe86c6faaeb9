import { sayLimit } from '../findings/wording/wording.ts';
import type { Frame } from '../geometry/frame.ts';
import type { XY } from '../geometry/vector.ts';
import type { SideSize } from '../trim/stand.ts';
import type { CutShape, Sliver } from './cut-shape.ts';

/** What is drawn of a cut from side to side, in the frame of the front film, mm; `earlier` is what trims took off since. Null without both contacts. */
export function sideShape(frame: Frame, { insideDown, outsideDown }: SideSize, earlier: SideSize): CutShape | null {
  const medial = frame.at('wall.medial');
  const lateral = frame.at('wall.lateral');
  if (!medial || !lateral || lateral.x.value <= medial.x.value) return null;
  const [inner, outer] = [medial.x.value, lateral.x.value];
  const middle = (inner + outer) / 2;
  const between = (atInner: number, atOuter: number, x: number): number =>
    atInner + ((atOuter - atInner) * (x - inner)) / (outer - inner);
  const wasAt = (x: number): number => between(earlier.insideDown, earlier.outsideDown, x);
  const heightAt = (x: number): number => wasAt(x) + between(insideDown, outsideDown, x);
  const sliver = (part: Sliver['part'], from: number, to: number, taken: number): Sliver => ({
    part,
    outline: [
      { x: from, y: wasAt(from) },
      { x: from, y: heightAt(from) },
      { x: to, y: heightAt(to) },
      { x: to, y: wasAt(to) },
    ],
    face: [],
    text: sayLimit(taken, 'mm'),
  });
  const both = insideDown > 0 && outsideDown > 0;
  const slivers = [
    ...(insideDown > 0 ? [sliver('inside', inner, both ? middle : outer, insideDown)] : []),
    ...(outsideDown > 0 ? [sliver('outside', both ? middle : inner, outer, outsideDown)] : []),
  ];
  const end = (x: number): XY => ({ x, y: heightAt(x) });
  return { ground: [end(inner), end(outer)], bend: null, slivers, turned: {} };
}
