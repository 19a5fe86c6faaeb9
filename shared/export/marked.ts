import type { MarkedFilm } from '../lessons/marked-case.ts';
import type { MarkJson } from './json-shapes.ts';

/** A student's file held against a key. */
export interface MarkedStudent {
  readonly file: string;
  /** In the order of the key. */
  readonly films: readonly MarkedFilm[];
}

/** What `mark --format json` prints; numbers are not rounded. */
export function markDocument(key: string, students: readonly MarkedStudent[]): MarkJson {
  return {
    ungula: 1,
    key,
    students: students.map(({ file, films }) => ({
      file,
      films: films.map(({ foot, view, picture, there, marked }) => ({
        foot,
        view,
        picture,
        there,
        marked: marked && {
          points: marked.points.map((point) => ({ ...point, off: point.off && { ...point.off } })),
          beyondKey: [...marked.beyondKey],
          measures: marked.measures.map((measure) => ({ ...measure })),
          groundTurned: marked.groundTurned,
          scaleRatio: marked.scaleRatio,
        },
      })),
    })),
  };
}
