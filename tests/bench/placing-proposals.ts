/**
 * How well the places of a new film are proposed from the film before, on drawn films whose truth is known.
 *
 *   npm run bench:placing                    20 films: a look
 *   npm run bench:placing -- --films 200     the figures of docs/placing.md
 *   npm run bench:placing -- --seed 7        other feet
 */
import { parseArgs } from 'node:util';
import type { LandmarkName } from '../../shared/notation/landmarks.ts';
import { lateralLandmark } from '../../shared/notation/landmarks.ts';
import type { FootInput } from '../../shared/geometry/foot-input.ts';
import { takeMeasures } from '../../shared/measures/take.ts';
import { proposedFrom } from '../../shared/proposals/from-film-before.ts';
import { Dice } from '../property/dice.ts';
import { drawnSeries, sunkBy, trimmed, type DrawnFilm } from './drawn-series.ts';
import { fittedArcs, fittedLines, fittedMarker, type Fitted } from './fitted-edges.ts';
import { begunWith, placedFilm } from './proposed-films.ts';
import { firstFilm, otherFeet, typicalTried } from './typical-films.ts';

const { values } = parseArgs({
  options: {
    films: { type: 'string', default: '20' },
    seed: { type: 'string', default: '1' },
    each: { type: 'boolean', default: false },
  },
});
const films = Number(values.films);
const seed = Number(values.seed);
if (!Number.isInteger(films) || films < 4 || !Number.isInteger(seed)) {
  console.error('--films takes a whole number from 4 on, --seed a whole number');
  process.exit(2);
}

/** A hand places to so many mm; what was placed on the film before is taken for true in the first part. */
const HAND = 0.5;
const PER_SERIES = 4;
type Kind = 'bone' | 'line of the bone' | 'joint' | 'capsule' | 'line of the wall' | 'sole';

interface Miss {
  readonly name: LandmarkName;
  readonly kind: Kind;
  /** mm; of a point on a line across it, of one on the sole how deep, as along the foot it lies where the bone was placed. */
  readonly off: number;
  readonly parts: readonly number[];
  /** One standard deviation, mm: of what was added, and with the hand of the film before. */
  readonly added: number;
  readonly distinct: boolean;
  /** The picture told it, and it is never called distinct, as another edge was taken for it. */
  readonly doubtful: boolean;
}

function kindOf(name: LandmarkName): Kind {
  const way = lateralLandmark(name)?.proposed;
  if (way?.by === 'arc') return 'joint';
  if (way?.by === 'edge below') return 'sole';
  if (way?.by === 'line') return way.on === 'capsule' ? 'line of the wall' : 'line of the bone';
  return way?.by === 'patch' && way.on === 'capsule' ? 'capsule' : 'bone';
}

const partnerOf = (name: LandmarkName): LandmarkName | null => {
  const way = lateralLandmark(name)?.proposed;
  return way?.by === 'line' ? way.partner : null;
};

/** A measure from the distinct proposals and what was placed by hand to begin with, against the truth. */
interface MeasureOff {
  readonly name: string;
  readonly unit: string;
  readonly off: number;
}

interface Tried {
  readonly measures: readonly MeasureOff[];
  readonly misses: readonly Miss[];
  readonly angles: readonly { readonly name: LandmarkName; readonly off: number }[];
  readonly ms: number;
  /** Distinct in both directions of the picture, and distinct on lines. */
  readonly both: number;
  readonly onLines: number;
}

function tried(before: DrawnFilm, now: DrawnFilm, dice: Dice, handBefore: number): Tried {
  const old = placedFilm(before, handBefore, dice);
  const begun = placedFilm(now, HAND, dice, begunWith);
  const start = performance.now();
  const proposed = proposedFrom(old, begun);
  const ms = performance.now() - start;
  if ('says' in proposed) return { measures: [], misses: [], angles: [], ms, both: 0, onLines: 0 };
  const mm = now.truth.mmPerPx;
  const truthOf = (name: LandmarkName): { x: number; y: number } | null => {
    const place = now.truth.landmarks[name];
    return place ? { x: place[0], y: place[1] } : null;
  };
  const misses = proposed.proposals.flatMap(({ name, at, added, spread, distinct, by }): Miss[] => {
    const truly = truthOf(name);
    if (!truly) return [];
    const d = { x: (at.x - truly.x) * mm, y: (at.y - truly.y) * mm };
    const partner = partnerOf(name);
    const other = partner && truthOf(partner);
    const sd = (handBefore > 0 ? spread : added) * mm;
    const row = { name, kind: kindOf(name), added: sd, distinct, doubtful: !distinct && by !== 'carried' };
    if (row.kind === 'sole') {
      const { from, to } = now.truth.ground;
      const level = Math.atan2(to[1] - from[1], to[0] - from[0]);
      const deep = d.y * Math.cos(level) - d.x * Math.sin(level);
      return [{ ...row, off: Math.abs(deep), parts: [deep] }];
    }
    if (!other) return [{ ...row, off: Math.hypot(d.x, d.y), parts: [d.x, d.y] }];
    const way = Math.atan2(other.y - truly.y, other.x - truly.x);
    const across = d.y * Math.cos(way) - d.x * Math.sin(way);
    return [{ ...row, off: Math.abs(across), parts: [across] }];
  });
  const angles = proposed.proposals.flatMap(({ name, at, distinct }) => {
    const partner = partnerOf(name);
    if (!distinct || !partner || !name.endsWith('.upper')) return [];
    const end = proposed.proposals.find((one) => one.name === partner);
    const [a, b] = [truthOf(name), truthOf(partner)];
    if (!end || !a || !b) return [];
    const turn = Math.atan2(end.at.y - at.y, end.at.x - at.x) - Math.atan2(b.y - a.y, b.x - a.x);
    return [{ name, off: Math.abs((Math.atan2(Math.sin(turn), Math.cos(turn)) * 180) / Math.PI) }];
  });
  const told = misses.filter(({ distinct }) => distinct);
  const confirmed: FootInput = {
    ...begun.foot,
    landmarks: [
      ...begun.foot.landmarks,
      ...proposed.proposals.flatMap(({ name, at, distinct, spread }) => (distinct ? [{ name, ...at, spread }] : [])),
    ],
  };
  const values = takeMeasures(() => confirmed).values;
  const measures = [...takeMeasures(() => placedFilm(now, 0, dice).foot).values.values()].flatMap(
    ({ measure, value }) => {
      const found = values.get(measure.name);
      return found ? [{ name: measure.name, unit: measure.unit, off: Math.abs(found.value - value) }] : [];
    },
  );
  return {
    measures,
    misses,
    angles,
    ms,
    both: told.filter(({ kind }) => !kind.startsWith('line')).length,
    onLines: told.filter(({ kind }) => kind.startsWith('line')).length,
  };
}

const quantile = (all: readonly number[], share: number): number => {
  const sorted = all.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
};
const shown = (value: number, digits = 2): string => (Number.isNaN(value) ? '–' : value.toFixed(digits));
const percent = (part: number, whole: number): string => (whole === 0 ? '–' : `${((100 * part) / whole).toFixed(1)} %`);

function table(head: readonly string[], rows: readonly (readonly string[])[]): void {
  console.log(`| ${head.join(' | ')} |`);
  console.log(`| ${head.map(() => '---').join(' | ')} |`);
  for (const row of rows) console.log(`| ${row.join(' | ')} |`);
  console.log('');
}

/** Further off than this a distinct proposal is a false one, mm. */
const FALSE: Readonly<Record<Kind, number>> = {
  bone: 3,
  'line of the bone': 3,
  joint: 3,
  capsule: 1,
  'line of the wall': 1,
  sole: 1,
};

function told(misses: readonly Miss[], name: string, limit: number, of: number): string[] {
  const distinct = misses.filter((one) => one.distinct);
  const offs = distinct.map(({ off }) => off);
  const far = offs.filter((off) => off > limit).length;
  const parts = distinct.flatMap(({ parts, added }) => parts.map((part) => Math.abs(part) / added));
  return [
    name,
    percent(distinct.length, of),
    shown(quantile(offs, 0.5)),
    shown(quantile(offs, 0.95)),
    shown(offs.length === 0 ? Number.NaN : Math.max(...offs)),
    `${percent(far, offs.length)} (${limit} mm)`,
    percent(parts.filter((part) => part <= 1).length, parts.length),
    percent(parts.filter((part) => part <= 2).length, parts.length),
  ];
}

const head = ['', 'distinct', 'median', '95 %', 'worst', 'off by more than', 'within ±', 'within 2 ±'];
const kinds = Object.keys(FALSE) as Kind[];

function report(
  title: string,
  tries: readonly Tried[],
  possible: (of: (name: LandmarkName) => boolean) => number,
): void {
  console.log(`## ${title}\n`);
  const misses = tries.flatMap((one) => one.misses);
  table(
    head,
    kinds.map((kind) =>
      told(
        misses.filter((one) => one.kind === kind),
        kind,
        FALSE[kind],
        possible((name) => kindOf(name) === kind),
      ),
    ),
  );
  if (values.each) {
    const names = [...new Set(misses.map(({ name }) => name))];
    table(
      head,
      names.map((name) =>
        told(
          misses.filter((one) => one.name === name),
          name,
          FALSE[kindOf(name)],
          possible((other) => other === name),
        ),
      ),
    );
  }
}

function main(): void {
  const dice = new Dice(seed * 7919 + 5);
  const clicks = new Dice(seed * 7919 + 6);
  const series = Math.max(1, Math.floor(films / PER_SERIES));
  const exact: Tried[] = [];
  const byHand: Tried[] = [];
  let pairs: (readonly [DrawnFilm, DrawnFilm])[] = [];
  const asked: LandmarkName[] = [];
  const fits: Fitted[] = [];
  const sinking: { readonly truly: number; readonly found: number | null }[] = [];
  for (let i = 0; i < series; i++) {
    const drawn = drawnSeries(seed * 1000 + i, PER_SERIES, trimmed);
    pairs = drawn.flatMap((now, k) => {
      const before = drawn[k - 1];
      return before ? [[before, now] as const] : [];
    });
    for (const film of drawn.slice(0, 2))
      fits.push(
        ...fittedLines(film, HAND, clicks),
        ...fittedArcs(film, HAND, clicks),
        ...fittedMarker(film, HAND, clicks),
      );
    for (const [before, now] of pairs) {
      exact.push(tried(before, now, dice, 0));
      byHand.push(tried(before, now, dice, HAND));
      for (const name of Object.keys(now.truth.landmarks) as LandmarkName[])
        if (!begunWith.includes(name) && lateralLandmark(name)?.proposed.by !== 'none') asked.push(name);
    }
  }
  for (let i = 0; i < Math.max(2, Math.floor(series / 2)); i++) {
    const [before, now] = drawnSeries(seed * 1000 + 500 + i, 2, sunkBy(3));
    if (before && now) sinking.push({ truly: low(now.truth.landmarks, now), found: lowInCapsule(before, now, dice) });
  }
  const possible = (of: (name: LandmarkName) => boolean): number => asked.filter(of).length;
  console.log(
    `${series} series of ${PER_SERIES} drawn films, ${exact.length} films proposed from the film before; seed ${seed}.\n`,
  );
  report('The film before placed as it truly is (mm)', exact, possible);
  report(`The film before placed by a hand of ${HAND} mm, which the proposals share`, byHand, possible);
  const angles = exact.flatMap((one) => one.angles);
  console.log('## Told by the picture and never called distinct, the film before as it truly is\n');
  const doubtful = exact.flatMap((one) =>
    one.misses.flatMap((miss) => (miss.doubtful ? [{ ...miss, distinct: true }] : [])),
  );
  table(
    head.with(1, 'found'),
    [...new Set(doubtful.map(({ name }) => name))].map((name) =>
      told(
        doubtful.filter((one) => one.name === name),
        name,
        FALSE[kindOf(name)],
        possible((other) => other === name),
      ),
    ),
  );
  console.log('## Lines found from the film before\n');
  table(
    ['line', 'fitted', 'median, degrees', '95 %'],
    (['p3.dorsal.upper', 'wall.upper', 'wall.inner.upper'] as const).map((name) => {
      const offs = angles.filter((one) => one.name === name).map(({ off }) => off);
      return [
        name.replace('.upper', ''),
        percent(offs.length, exact.length),
        shown(quantile(offs, 0.5)),
        shown(quantile(offs, 0.95)),
      ];
    }),
  );
  console.log(
    `## Fitted to the edge, from clicks of a hand of ${HAND} mm (lines in degrees; joints, and the length of the marker, in mm)\n`,
  );
  table(
    ['', 'fitted', 'clicks, median', '95 %', 'fit, median', '95 %', 'across, mm: middle 80 %'],
    [...new Set(fits.map(({ name }) => name))].map((name) => {
      const mine = fits.filter((one) => one.name === name);
      const clicked = mine.map((one) => one.clicked);
      const fitted = mine.flatMap((one) => (one.fitted === null ? [] : [one.fitted]));
      const across = mine.flatMap((one) => one.across);
      return [
        name,
        percent(fitted.length, mine.length),
        shown(quantile(clicked, 0.5)),
        shown(quantile(clicked, 0.95)),
        shown(quantile(fitted, 0.5)),
        shown(quantile(fitted, 0.95)),
        across.length === 0 ? '' : `${shown(quantile(across, 0.1))} to ${shown(quantile(across, 0.9))}`,
      ];
    }),
  );
  console.log('## Measures from distinct proposals, and tip, wing, ground and marker by hand\n');
  const measures = exact.flatMap((one) => one.measures);
  for (const unit of new Set(measures.map((one) => one.unit))) {
    const names = [...new Set(measures.flatMap((one) => (one.unit === unit ? [one.name] : [])))];
    const middles = names.map((name) => ({
      name,
      off: quantile(
        measures.flatMap((one) => (one.name === name ? [one.off] : [])),
        0.5,
      ),
    }));
    const sorted = middles.toSorted((a, b) => b.off - a.off);
    console.log(
      `${unit}: median of all ${shown(
        quantile(
          measures.flatMap((one) => (one.unit === unit ? [one.off] : [])),
          0.5,
        ),
      )}; the worst three by their median: ${sorted
        .slice(0, 3)
        .map(({ name, off }) => `${name} ${shown(off)}`)
        .join(', ')}\n`,
    );
  }
  console.log('## Beside\n');
  const times = exact.map(({ ms }) => ms);
  const seen = sinking.flatMap(({ truly, found }) => (found === null ? [] : [Math.abs(found - truly)]));
  table(
    ['', ''],
    [
      [
        'distinct in both directions, median of the films',
        shown(
          quantile(
            exact.map(({ both }) => both),
            0.5,
          ),
          0,
        ),
      ],
      [
        'distinct on lines, across them',
        shown(
          quantile(
            exact.map(({ onLines }) => onLines),
            0.5,
          ),
          0,
        ),
      ],
      ['films for which nothing was proposed', String(exact.filter(({ misses }) => misses.length === 0).length)],
      ['time for a film, median, ms', shown(quantile(times, 0.5), 0)],
      ['time for a film, 95 %, ms', shown(quantile(times, 0.95), 0)],
      ['sunk by 3 mm: told by the pictures', `${seen.length} of ${sinking.length}`],
      ['sunk by 3 mm: depth of the bone in the capsule off by, median, mm', shown(quantile(seen, 0.5))],
      ['sunk by 3 mm: the worst', shown(seen.length === 0 ? Number.NaN : Math.max(...seen))],
    ],
  );
}

/** From the typical foot, on first films of feet that the thresholds were not chosen on. */
function typicalReport(count: number): void {
  const dice = new Dice(seed * 7919 + 7);
  for (const [title, feet] of Object.entries(otherFeet)) {
    const tries = Array.from({ length: count }, (_, i) =>
      typicalTried(firstFilm(seed * 1000 + 700 + i, feet), HAND, dice),
    );
    const misses = tries.flatMap((one) => one.misses);
    const films = tries.filter((one) => one.misses.length > 0).length;
    console.log(`## From the typical foot, ${films} of ${count} films: ${title} (mm)\n`);
    table(
      ['', 'proposals', 'distinct', 'median', '95 %', 'worst', 'within ±', 'within 2 ±'],
      [...new Set(misses.map(({ kind }) => kind))].map((kind) => {
        const mine = misses.filter((one) => one.kind === kind);
        const offs = mine.map(({ parts }) => Math.hypot(...parts));
        const shares = mine.flatMap(({ parts, spread }) => parts.map((part) => Math.abs(part) / spread));
        return [
          kind,
          String(mine.length),
          percent(mine.filter(({ distinct }) => distinct).length, mine.length),
          shown(quantile(offs, 0.5)),
          shown(quantile(offs, 0.95)),
          shown(Math.max(...offs)),
          percent(shares.filter((one) => one <= 1).length, shares.length),
          percent(shares.filter((one) => one <= 2).length, shares.length),
        ];
      }),
    );
    const times = tries.map(({ ms }) => ms);
    console.log(
      `${shown(quantile(times, 0.5), 0)} ms a film at the median, ${shown(quantile(times, 0.95), 0)} ms at 95 %\n`,
    );
  }
}

type Places = Readonly<Record<string, readonly [number, number]>>;

/** How far the top of the bone lies below the top of the wall, square to the true ground, mm. */
function low(places: Places, { truth }: DrawnFilm): number {
  const [wall, bone] = [places['wall.top'], places['p3.extensor']];
  if (!wall || !bone) return Number.NaN;
  const { from, to } = truth.ground;
  const way = Math.atan2(to[1] - from[1], to[0] - from[0]);
  return Math.abs((bone[1] - wall[1]) * Math.cos(way) - (bone[0] - wall[0]) * Math.sin(way)) * truth.mmPerPx;
}

function lowInCapsule(before: DrawnFilm, now: DrawnFilm, dice: Dice): number | null {
  const proposed = proposedFrom(placedFilm(before, 0, dice), placedFilm(now, HAND, dice, begunWith));
  if ('says' in proposed) return null;
  const distinct = proposed.proposals.filter((one) => one.distinct);
  const places = Object.fromEntries(distinct.map(({ name, at }) => [name, [at.x, at.y] as const]));
  return places['wall.top'] && places['p3.extensor'] ? low(places, now) : null;
}

main();
typicalReport(Math.max(4, Math.floor(films / PER_SERIES)));
