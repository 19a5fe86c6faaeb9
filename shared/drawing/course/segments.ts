import type { XY } from '../../geometry/vector.ts';
import type { PathSegment } from '../scene.ts';
import { line, symbol, symbolTriangle } from 'd3-shape';

/** Takes what d3-shape draws and keeps it as segments of the scene. */
class Recorder {
  readonly segments: PathSegment[] = [];

  moveTo(x: number, y: number): void {
    this.segments.push(['M', x, y]);
  }

  lineTo(x: number, y: number): void {
    this.segments.push(['L', x, y]);
  }

  closePath(): void {
    this.segments.push(['Z']);
  }
}

/** d3-shape wants a whole canvas; straight shapes need no more of it than this. */
const asCanvas = (recorder: Recorder): CanvasRenderingContext2D => recorder as unknown as CanvasRenderingContext2D;

export function polyline(points: readonly XY[]): PathSegment[] {
  const recorder = new Recorder();
  line<XY>(
    ({ x }) => x,
    ({ y }) => y,
  ).context(asCanvas(recorder))([...points]);
  return recorder.segments;
}

export function polygon(points: readonly XY[]): PathSegment[] {
  return [...polyline(points), ['Z']];
}

/** An arrowhead of so many square pixels that points up or down. */
export function arrowhead(at: XY, up: boolean, size: number): PathSegment[] {
  const recorder = new Recorder();
  symbol(symbolTriangle, size).context(asCanvas(recorder))();
  return recorder.segments.map((part): PathSegment => {
    if (part[0] !== 'M' && part[0] !== 'L') return part;
    return [part[0], at.x + part[1], at.y + (up ? part[2] : -part[2])];
  });
}
