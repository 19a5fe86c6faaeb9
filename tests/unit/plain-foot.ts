/**
 * A plain sound foot in millimetres (X to the toe from below the bone's tip, Y up from the ground), and the text of a
 * film of it at 0.1 mm a pixel, toe to the right. Round numbers, so that a test can be checked on paper.
 */
export const soundFoot: Readonly<Record<string, readonly [number, number]>> = {
  'p3.tip': [0, 16],
  'p3.wing': [-80, 23],
  'p3.extensor': [-37, 56],
  'p3.dorsal.upper': [-28, 50],
  'p3.dorsal.lower': [-7, 24],
  'p3.navicular': [-62, 34],
  'coffin.centre': [-54, 52],
  'pastern.centre': [-81, 88],
  'fetlock.centre': [-130, 149],
  'navicular.upper': [-77, 43],
  'navicular.lower': [-65, 30],
  'wall.top': [-18, 60],
  'wall.upper': [-11, 52],
  'wall.lower': [17, 17],
  'wall.inner.upper': [-20, 50],
  'wall.inner.lower': [3, 21],
  'coronet.dorsal': [-25, 68],
  'coronet.heel': [-131, 24],
  'heel.upper': [-128, 20],
  'toe.ground': [28, 0],
  breakover: [26, 0],
  'heel.ground': [-110, 0],
  'sole.tip': [0, 1],
  'sole.wing': [-80, 4],
  'sole.heel': [-104, 3],
};

export type Places = Readonly<Record<string, readonly [number, number] | undefined>>;

export interface FilmText {
  readonly header?: string;
  readonly scale?: string | null;
  readonly ground?: string | null;
  readonly more?: readonly string[];
}

/** The lines of a film; a place given as undefined is left out. */
export function filmText(
  changes: Places = {},
  {
    header = 'film LF lateral "x.png"',
    scale = 'scale 0.1 mm/px',
    ground = 'ground 0, 1000 .. 2000, 1000',
    more = [],
  }: FilmText = {},
): string {
  const places = Object.entries({ ...soundFoot, ...changes }).flatMap(([name, place]) =>
    place ? [`    ${name} @ ${2000 + place[0] * 10}, ${1000 - place[1] * 10}`] : [],
  );
  return [
    `  ${header}`,
    ...[scale, ground, ...more].flatMap((line) => (line === null ? [] : [`    ${line}`])),
    ...places,
  ].join('\n');
}

export function caseText(body: string, { animal = 'animal horse mare', limits = '' } = {}): string {
  return `hoof 1\n\ncase "Test"\n  ${animal}\n${limits}\nvisit 2026-03-04\n${body}\n`;
}
