import { filmText, type FilmText, type Places } from './plain-foot.ts';

export interface CourseVisit {
  readonly date: string;
  readonly places?: Places;
  readonly film?: FilmText | null;
  /** More lines of the visit, indented already. */
  readonly more?: readonly string[];
}

/** A case with a film a visit of the plain foot, each changed in its own places. */
export function courseText(visits: readonly CourseVisit[]): string {
  const body = visits.map(({ date, places = {}, film = {}, more = [] }) =>
    [`visit ${date}`, ...(film ? [filmText(places, film)] : []), ...more].join('\n'),
  );
  return `hoof 1\n\ncase "Test"\n  animal horse mare\n\n${body.join('\n\n')}\n`;
}

/** The wing so high above the tip, mm, 80 mm behind it. */
export const wing = (rise: number): Places => ({ 'p3.wing': [-80, 16 + rise] });

/** New wall that many mm down the dorsal wall from the hairline, which stands at [-25, 68]; the toe is at [28, 0]. */
export function turn(mm: number): Places {
  const [dx, dy] = [53, -68];
  const length = Math.hypot(dx, dy);
  return { 'wall.turn': [-25 + (dx * mm) / length, 68 + (dy * mm) / length] };
}
