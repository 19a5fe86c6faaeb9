import * as z from 'zod/mini';
import { line, list, text } from './bounds.ts';

/** What the extension and the page tell each other about placing, and what the page keeps of it. */

const point = z.object({ x: z.number(), y: z.number() });
const ends = z.nullable(z.readonly(z.tuple([point, point])));

/** What a film is measured from, see `FootInput`. */
export const footInput = z.object({
  view: z.enum(['lateral', 'front', 'solar']),
  landmarks: list(z.object({ name: text, x: z.number(), y: z.number(), spread: z.nullable(z.number()) })),
  ground: ends,
  scale: z.nullable(
    z.union([
      z.object({ kind: z.literal('pixel'), mmPerPx: z.number() }),
      z.object({ kind: z.literal('marker'), mm: z.number(), ends: z.readonly(z.tuple([point, point])) }),
    ]),
  ),
  magnify: z.number(),
  spread: z.object({ mm: z.nullable(z.number()), px: z.number() }),
});

/** What measures are held against, see `Yardsticks`. */
export const yardsticks = z.record(
  z.string(),
  list(
    z.object({
      measure: z.string(),
      words: z.string(),
      lines: list(
        z.object({
          side: z.enum(['low', 'high']),
          at: z.number(),
          severity: z.enum(['error', 'warning', 'info', 'hint']),
        }),
      ),
      usual: z.nullable(z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()) })),
      usualText: z.string(),
      source: z.string(),
      published: list(z.string()),
    }),
  ),
);

const placement = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('landmark'), name: z.string(), at: z.nullable(point) }),
  z.object({ kind: z.literal('ground'), ends }),
  z.object({ kind: z.literal('marker'), ends, mm: z.nullable(z.number()) }),
]);

/** From the page: one wish, which becomes one undo step. */
export const placeMessage = z.object({
  type: z.literal('place'),
  /** Counts the wishes of a page; the answer bears it again. */
  id: z.number(),
  uri: z.string(),
  film: z.object({
    line,
    picture: z.string(),
    foot: z.string(),
    view: z.string(),
    reader: z.nullable(z.string()),
  }),
  placements: list(placement),
});
export type PlaceMessage = z.infer<typeof placeMessage>;

/** From the page: a step back or forth in the editor's own history of the case file. */
export const historyMessage = z.object({ type: z.literal('history'), uri: z.string(), how: z.enum(['undo', 'redo']) });
export type HistoryMessage = z.infer<typeof historyMessage>;

/** To the page. `says` is null where it was written: then sheets of `version` or a later one have it. */
export const placedMessage = z.object({
  type: z.literal('placed'),
  id: z.number(),
  uri: z.string(),
  version: z.nullable(z.number()),
  says: z.nullable(z.string()),
});
export type PlacedMessage = z.infer<typeof placedMessage>;

const light = z.object({ contrast: z.number(), brightness: z.number(), inverted: z.boolean() });
export type Light = z.infer<typeof light>;

/** Where the middle of the stage lies on the picture, px, and CSS pixels to a pixel of the picture. */
const sight = z.object({ x: z.number(), y: z.number(), zoom: z.number() });
export type Sight = z.infer<typeof sight>;

/** What the page keeps of placing. Pictures by the path that the film writes. */
export const placingState = z.object({
  /** Key of the film that is placed on; null where nothing is placed. */
  film: z.nullable(z.string()),
  /** Names of sets and measures that are wanted. */
  wanted: list(z.string()),
  /** The step that the walk stands at; null where the first that is missing comes. */
  step: z.nullable(z.string()),
  skipped: list(z.string()),
  sights: z.record(z.string(), sight),
  lights: z.record(z.string(), light),
  snaps: z.boolean(),
  /** Length of the last marker, mm. */
  markerMm: z.number(),
});
export type PlacingState = z.infer<typeof placingState>;

export const noPlacing: PlacingState = {
  film: null,
  wanted: ['rotation and sole'],
  step: null,
  skipped: [],
  sights: {},
  lights: {},
  snaps: false,
  markerMm: 100,
};
