import { spoken } from '../../language/rows.ts';
import { t } from '../../language/words.ts';
import { drawPlate } from '../../drawing/plate/plate.ts';
import { escaped, sceneToSvg } from '../../drawing/svg.ts';
import { plainScene } from './plain-scene.ts';
import { sayPartOfMonth } from '../../findings/wording/say-day.ts';
import type { XY } from '../../geometry/vector.ts';
import { dateOfDay, dayNumber } from '../../notation/dates.ts';
import { courseSheet } from '../../views/course-sheet.ts';
import type { FootToday } from '../../views/foot-today.ts';
import { grownFoot, growthRate, lacksForGrowth, type GrownFoot, type GrowthRate } from '../../views/months-ahead.ts';
import { standingPlaces } from '../../views/pen-line.ts';
import { paragraph, section, type PageOf } from './shell.ts';

/** Days after the page: three, six and nine months. */
const ahead = [91, 182, 274] as const;
const monthsOf: ReadonlyMap<number, number> = new Map(ahead.map((days, index) => [days, 3 * (index + 1)]));

/** The foot as it should look when new wall has grown on, so that the ugly months can be borne. */
export function monthsPart(page: PageOf, foot: FootToday | null): string {
  const heading = t('The months to come');
  const none = (words: string): string => section('to-come', heading, paragraph(words, 'withheld'));
  if (!foot?.sheet) return none(t('They are not drawn: there is no film of a foot from the side.'));
  if (foot.noOutlook !== '') return none(t('They are not drawn. {0}', page.unnamed(foot.noOutlook)));
  const places = foot.standing && standingPlaces(foot.standing);
  if (!places) return none(t('They are not drawn: the film has no scale, or the foot cannot be followed from it.'));
  if (lacksForGrowth(places).length > 0)
    return none(t('They are not drawn: no place on the film says where the new wall ends.'));
  const today = dayNumber(page.date);
  const taken = foot.sheet.date === null ? null : dayNumber(foot.sheet.date);
  if (today === null || taken === null) return none(t('They are not drawn: the film has no date.'));
  const rows = courseSheet(page.inspection).feet.find((one) => one.foot === foot.foot)?.rows ?? [];
  const rate = growthRate(rows.find(({ measure, source }) => measure === 'grown-out' && source === 'film'));
  const figures = ahead.map((days) => {
    const grown = (perDay: number): GrownFoot | null => grownFoot(places, perDay * (today + days - taken));
    const [slow, middle, fast] = [grown(rate.slow), grown(rate.middle), grown(rate.fast)];
    if (!slow || !middle || !fast) return null;
    const svg = drawnGrown(foot, places, middle);
    const date = sayPartOfMonth(dateOfDay(today + days));
    return `<figure>${svg}<figcaption>${escaped(`${t('In {0} months, {1}.', monthsOf.get(days) ?? 0, date)} ${newWallWords(slow, fast)}`)}</figcaption></figure>`;
  });
  if (figures.includes(null))
    return none(t('They are not drawn: the wall on the film does not run down to the ground.'));
  return section(
    'months',
    heading,
    `<div class="month-row">${figures.join('')}</div>${paragraph(`${t('The broken line is the foot of today. A short line across the wall shows how far down the new wall is. This is a drawing and no promise: it holds if the bone stays where it is, the wall grows on as it did, and the toe is kept as short as it is. Heels and sole are not foretold.')} ${rateWords[rate.by]}`, 'faint')}`,
  );
}

const rateWords = spoken({
  films: 'It goes by how fast this foot has grown from film to film.',
  'few films': 'It goes by how fast this foot has grown. There are few films, so the range is wide.',
  usual: 'It goes by how fast hooves grow as a rule, 6 to 10 mm in a month.',
} satisfies Record<GrowthRate['by'], string>);

/** `New wall is down 52 to 60 mm.` */
function newWallWords(slow: GrownFoot, fast: GrownFoot): string {
  if (slow.reachesGround) return t('New wall is at the ground.');
  const [least, most] = [Math.round(slow.newWall), Math.round(fast.newWall)];
  if (fast.reachesGround) return t('New wall is down {0} mm, or at the ground.', least);
  return least === most ? t('New wall is down {0} mm.', least) : t('New wall is down {0} to {1} mm.', least, most);
}

/** Pixels of the drawing for each mm. */
const enlarged = 10;

function drawnGrown({ foot, words }: FootToday, today: ReadonlyMap<string, XY>, { places }: GrownFoot): string {
  const onPicture = (those: ReadonlyMap<string, XY>): Map<string, XY> =>
    new Map([...those].map(([name, { x, y }]) => [name, { x: -x * enlarged, y: -y * enlarged }]));
  // The bones above the hoof take room and tell nothing here.
  const hoof = (those: Map<string, XY>): Map<string, XY> => {
    for (const name of ['fetlock.centre', 'pastern.centre']) those.delete(name);
    return those;
  };
  const now = hoof(onPicture(today));
  const xs = [...now.values()].map(({ x }) => x);
  const ground = [
    { x: Math.min(...xs), y: 0 },
    { x: Math.max(...xs), y: 0 },
  ] as const;
  const scene = drawPlate({
    foot,
    view: 'lateral',
    placed: hoof(onPicture(places)),
    ground,
    marker: null,
    scale: 1 / enlarged,
    picture: null,
    labels: [],
    over: { words: t('{0} today', words), placed: now, ground, unlettered: true },
  });
  return sceneToSvg(plainScene(scene));
}
