import { flatter, sunk } from './changes.ts';
import { bar, type Film } from './films.ts';
import { soundCob, type FootParameters } from './parameters.ts';
import { at } from './plane.ts';

/** A film of a lesson: small, with little grain, so that a class of copies stays small. */
const lesson = (film: Omit<Film, 'grain'>): Film => ({ ...film, grain: 0.15 });

/** Yarrow's left fore before and after: the bone turns in a capsule that stays, and the old wall stands as it stood. */
const yarrowBefore: FootParameters = { ...soundCob, palmarAngle: 4.5, coronetAngle: 22, soleTip: 15, cup: 3 };
const yarrowAfter: FootParameters = {
  ...yarrowBefore,
  palmarAngle: 12.5,
  rotation: 8,
  founderDistance: 4.6,
  lamellarUpper: 8.4,
  lamellarLower: 13.5,
  hornLamellar: 18,
  soleTip: 11,
  soleWing: 24,
};

/** Sloe's left fore: the second film is the first after a trim of the heels, on the third the bone has gone down. */
const sloeFirst: FootParameters = {
  ...soundCob,
  palmarAngle: 9,
  founderDistance: 3.4,
  soleTip: 17.5,
  soleWing: 20,
  cup: 6,
  heelSurplus: 13,
  toeLength: 86,
  heelAngle: 52,
  coronetAngle: 18,
};
const sloeSecond = flatter(sloeFirst, 4.5);
const sloeThird = sunk(sloeSecond, 6);

/** Tansy's left fore: long heels that have run away from the live sole, on a bone and a sole that are sound. */
const tansy: FootParameters = {
  ...soundCob,
  palmarAngle: 10.5,
  founderDistance: 3.6,
  soleTip: 18,
  soleWing: 21,
  cup: 6,
  heelSurplus: 15,
  toeLength: 88,
  bearingLength: 136,
  heelAngle: 50,
  coronetAngle: 17,
  middleAngle: 54.5,
  proximalAngle: 52,
};

/** Damson's right fore: the sole is thin, the bone lies low, and its wing lies lower than its tip. */
const damson: FootParameters = {
  ...soundCob,
  palmarAngle: -2.5,
  rotation: 1.5,
  founderDistance: 12,
  hornLamellar: 19,
  lamellarUpper: 9.5,
  lamellarLower: 10.5,
  soleTip: 6.5,
  soleWing: 6,
  cup: 0.6,
  heelSurplus: 3,
  toeLength: 91,
  bearingLength: 138,
  heelAngle: 38,
  coronetAngle: 25,
  middleAngle: 47,
  proximalAngle: 50,
};

/** The films of the lessons, in the order of the lessons. */
export const lessonFilms: readonly Film[] = [
  lesson({
    name: 'quince-lf',
    foot: 'LF',
    taken: '2026-03-02',
    about: 'Quince, cob mare, left fore: a normal foot',
    view: { width: 540, height: 470, mmPerPx: 0.48, toe: 'left', tilt: 0.7, origin: at(160, 412) },
    parameters: { ...soundCob, soleTip: 15.5, cup: 2.5 },
    bar: bar(58, 7, 2),
    letters: at(40, 40),
    seed: 2101,
  }),
  lesson({
    name: 'medlar-lf',
    foot: 'LF',
    taken: '2026-03-05',
    about: 'Medlar, riding gelding, left fore, with the marker',
    view: { width: 550, height: 480, mmPerPx: 0.5, toe: 'left', tilt: -1.1, origin: at(165, 422) },
    parameters: { ...soundCob, size: 1.1, palmarAngle: 6, toeLength: 90, bearingLength: 140, soleTip: 16.5, cup: 3 },
    bar: bar(60, 6, -2),
    letters: at(44, 46),
    seed: 2201,
  }),
  lesson({
    name: 'medlar-rf',
    foot: 'RF',
    taken: '2026-03-05',
    about: 'Medlar, right fore, on which the marker was forgotten',
    view: { width: 560, height: 480, mmPerPx: 0.44, toe: 'right', tilt: 0.8, origin: at(378, 424) },
    parameters: { ...soundCob, size: 1.1, palmarAngle: 4, toeLength: 91, bearingLength: 141, soleTip: 16, cup: 3 },
    bar: bar(60, 6, 1),
    letters: at(480, 40),
    seed: 2202,
    isUnmarked: true,
  }),
  lesson({
    name: 'yarrow-lf-1',
    foot: 'LF',
    taken: '2026-01-12',
    about: 'Yarrow, pony-built cob, left fore, before',
    view: { width: 540, height: 470, mmPerPx: 0.48, toe: 'left', tilt: 1.2, origin: at(162, 410) },
    parameters: yarrowBefore,
    bar: bar(57, 8, 2),
    letters: at(42, 44),
    seed: 2301,
  }),
  lesson({
    name: 'yarrow-lf-2',
    foot: 'LF',
    taken: '2026-03-16',
    about: 'Yarrow, left fore, nine weeks later',
    view: { width: 540, height: 470, mmPerPx: 0.49, toe: 'left', tilt: -0.6, origin: at(160, 414) },
    parameters: yarrowAfter,
    bar: bar(59, 5, -1),
    letters: at(48, 40),
    seed: 2302,
  }),
  lesson({
    name: 'sloe-lf-1',
    foot: 'LF',
    taken: '2026-02-02',
    about: 'Sloe, driving mare, left fore, first film',
    view: { width: 540, height: 470, mmPerPx: 0.48, toe: 'left', tilt: 0.9, origin: at(160, 410) },
    parameters: sloeFirst,
    bar: bar(58, 6, 1),
    letters: at(42, 42),
    seed: 2401,
  }),
  lesson({
    name: 'sloe-lf-2',
    foot: 'LF',
    taken: '2026-03-02',
    about: 'Sloe, left fore, after the heels were lowered',
    view: { width: 550, height: 470, mmPerPx: 0.47, toe: 'left', tilt: -0.8, origin: at(166, 412) },
    parameters: sloeSecond,
    bar: bar(57, 7, -2),
    letters: at(46, 44),
    seed: 2402,
  }),
  lesson({
    name: 'sloe-lf-3',
    foot: 'LF',
    taken: '2026-03-30',
    about: 'Sloe, left fore, the bone lower in the capsule',
    view: { width: 540, height: 470, mmPerPx: 0.485, toe: 'left', tilt: 0.4, origin: at(162, 414) },
    parameters: sloeThird,
    bar: bar(59, 5, 2),
    letters: at(40, 46),
    seed: 2403,
  }),
  lesson({
    name: 'tansy-lf',
    foot: 'LF',
    taken: '2026-04-13',
    about: 'Tansy, trekking mare, left fore, with long heels',
    view: { width: 550, height: 480, mmPerPx: 0.48, toe: 'left', tilt: -1.3, origin: at(164, 424) },
    parameters: tansy,
    bar: bar(60, 7, 1),
    letters: at(44, 42),
    seed: 2501,
  }),
  lesson({
    name: 'bracken-lf',
    foot: 'LF',
    taken: '2026-04-20',
    about: 'Bracken, carriage gelding, left fore, on a shoe with a wedge',
    view: { width: 560, height: 500, mmPerPx: 0.48, toe: 'left', tilt: -1.8, origin: at(168, 410) },
    parameters: { ...soundCob, size: 1.06, palmarAngle: 4, toeLength: 86, soleTip: 16.5, cup: 3 },
    shoe: { thickness: 10, wedge: 3 },
    bar: bar(58, 5, -1),
    letters: at(44, 44),
    seed: 2601,
  }),
  lesson({
    name: 'damson-rf',
    foot: 'RF',
    taken: '2026-05-04',
    about: 'Damson, broodmare, right fore, with a thin sole and a bone that lies low',
    view: { width: 560, height: 470, mmPerPx: 0.48, toe: 'right', tilt: 0.9, origin: at(392, 412) },
    parameters: damson,
    bar: bar(60, 6, 2),
    letters: at(480, 42),
    seed: 2701,
  }),
];
