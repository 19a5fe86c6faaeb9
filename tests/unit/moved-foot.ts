import { soundFoot, type Places } from './plain-foot.ts';

/** The plain foot with its bone or its stance changed: which of both, a film alone does not tell. */

const bone = /^(?:p3|coffin|navicular)\./;

/** The bone that many mm lower in the capsule. */
export function sunk(mm: number): Places {
  return Object.fromEntries(
    Object.entries(soundFoot).map(([name, [x, y]]) => [name, bone.test(name) ? [x, y - mm] : [x, y]] as const),
  );
}

/** The whole foot turned about its toe's contact by so many degrees, the heels lower; nothing moves in the capsule. */
export function stoodFlatter(degrees: number, places: Places = soundFoot): Places {
  return turnedAbout(places, [28, 0], degrees, () => true);
}

/** The bone alone turned about its extensor process by so many degrees, the tip downwards. */
export function rotated(degrees: number, places: Places = soundFoot): Places {
  return turnedAbout(places, places['p3.extensor'] ?? [0, 0], -degrees, (name) => bone.test(name));
}

function turnedAbout(
  places: Places,
  [cx, cy]: readonly [number, number],
  degrees: number,
  moves: (name: string) => boolean,
): Places {
  const [sine, cosine] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
  return Object.fromEntries(
    Object.entries(places).flatMap(([name, place]) => {
      if (!place) return [];
      const [x, y] = [place[0] - cx, place[1] - cy];
      const turned = [cx + x * cosine - y * sine, cy + x * sine + y * cosine] as const;
      return [[name, moves(name) ? turned : place] as const];
    }),
  );
}
