import { soundFoot } from './plain-foot.ts';

/** Films of the plain sound foot that show its bones alone, with a marker and with errors of placing. */

type Place = readonly [number, number];

const bones = ['p3.tip', 'p3.wing', 'p3.extensor', 'coffin.centre', 'pastern.centre'] as const;

export interface BoneFilm {
  readonly foot?: 'LF' | 'RF';
  /** How the line of the scale reads; undefined for a marker of 100 mm, null for none. */
  readonly scale?: string | null;
  /** How much larger the whole foot shows on the film than its scale says; 1 where it shows as it is. */
  readonly size?: number;
  readonly places?: Readonly<Record<string, Place>>;
  /** mm of error, each time that it is asked. */
  readonly error?: () => number;
  readonly picture?: string;
  readonly more?: readonly string[];
}

/** At 0.1 mm a pixel. */
export function boneFilm({
  foot = 'LF',
  scale,
  size = 1,
  places = {},
  error = () => 0,
  picture,
  more = [],
}: BoneFilm): string {
  const px = (mm: number): string => (10 * (mm + error())).toFixed(2);
  const at = ([x, y]: Place): string => `${px(200 + x * size)}, ${px(200 - y * size)}`;
  const marker = `scale 100 mm = ${at([-50 / size, -20])} .. ${at([50 / size, -20])}`;
  return [
    `  film ${foot} lateral "${picture ?? `${foot}.png`}"`,
    ...(scale === null ? [] : [`    ${scale ?? marker}`]),
    `    ground 200, 2000 .. 3000, 2000`,
    ...more.map((line) => `    ${line}`),
    ...bones.map((name) => `    ${name} @ ${at(places[name] ?? (soundFoot[name] as Place))}`),
  ].join('\n');
}

/** A film each four weeks or so, one a visit, each with a picture of its own. */
export function boneCase(films: readonly (BoneFilm | readonly BoneFilm[])[], sheet = 'animal horse mare'): string {
  const visits = films.map((of, index) => {
    const month = `${2024 + Math.floor(index / 12)}-${String((index % 12) + 1).padStart(2, '0')}`;
    const those = [of].flat() as readonly BoneFilm[];
    return `visit ${month}-04\n${those
      .map((one) => boneFilm({ picture: `${one.foot ?? 'LF'}-${month}.png`, ...one }))
      .join('\n\n')}\n`;
  });
  return `hoof 1\n\ncase "Test"\n  ${sheet}\n\n${visits.join('\n')}`;
}
