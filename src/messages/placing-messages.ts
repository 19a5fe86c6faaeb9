import * as z from 'zod/mini';
import { filmAddress, markerLength, placements } from '../../shared/edits/placing-schema.ts';
import { landmarkNames, views } from '../../shared/notation/landmarks.ts';
import { severities } from '../../shared/reference/severity.ts';
import { address, list, named, text } from './bounds.ts';

/** What the extension and the page tell each other about placing, and what the page keeps of it. */

const point = z.object({ x: z.number(), y: z.number() });
const ends = z.nullable(z.readonly(z.tuple([point, point])));

/** What a film is measured from, see `FootInput`. */
export const footInput = z.object({
  view: z.enum(views),
  landmarks: list(
    z.object({
      name: z.enum(landmarkNames),
      x: z.number(),
      y: z.number(),
      spread: z.nullable(z.number()),
      followed: z.optional(z.literal(true)),
    }),
  ),
  ground: ends,
  bearing: ends,
  isShod: z.boolean(),
  scale: z.nullable(
    z.union([
      z.object({ kind: z.literal('pixel'), mmPerPx: z.number() }),
      z.object({ kind: z.literal('marker'), mm: z.number(), ends: z.readonly(z.tuple([point, point])) }),
      z.object({
        kind: z.literal('bone'),
        lengths: list(z.object({ from: z.enum(landmarkNames), to: z.enum(landmarkNames), mm: z.number() })),
        relativeSd: z.number(),
      }),
    ]),
  ),
  magnify: z.number(),
  spread: z.object({ mm: z.nullable(z.number()), px: z.number() }),
});

/** What a measure is held against, see `Yardstick`. */
export const yardstick = z.object({
  measure: text,
  words: text,
  lines: list(
    z.object({
      side: z.enum(['low', 'high']),
      at: z.number(),
      severity: z.enum(severities),
    }),
  ),
  usual: z.nullable(z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()) })),
  usualText: text,
  source: text,
  published: list(text),
});

const wish = z.number().check(z.int(), z.nonnegative());

/** From the page: one wish, which becomes one undo step. */
export const placeMessage = z.object({
  type: z.literal('place'),
  /** Counts the wishes of a page; the answer bears it again. */
  id: wish,
  uri: address,
  film: filmAddress,
  placements,
});
export type PlaceMessage = z.infer<typeof placeMessage>;

/** From the page: a step back or forth in the editor's own history of the case file. */
export const historyMessage = z.object({ type: z.literal('history'), uri: address, how: z.enum(['undo', 'redo']) });
export type HistoryMessage = z.infer<typeof historyMessage>;

/** To the page. `says` is null where it was written: then sheets of `version` or a later one have it. */
export const placedMessage = z.object({
  type: z.literal('placed'),
  id: wish,
  uri: address,
  version: z.nullable(z.number()),
  says: z.nullable(text),
});
export type PlacedMessage = z.infer<typeof placedMessage>;

/** Length of the last marker, mm: from the page where a person has written it, to the page as it was kept for this person. */
export const markerMessage = z.object({ type: z.literal('marker'), mm: markerLength });

const light = z.object({ contrast: z.number(), brightness: z.number(), inverted: z.boolean() });
export type Light = z.infer<typeof light>;

/** Where the middle of the stage lies on the picture, px, and CSS pixels to a pixel of the picture. */
const sight = z.object({ x: z.number(), y: z.number(), zoom: z.number() });
export type Sight = z.infer<typeof sight>;

/** What the page keeps of placing. Pictures by the path that the film writes. */
export const placingState = z.object({
  /** Key of the film that is placed on; null where nothing is placed. */
  film: z.nullable(address),
  /** Names of sets and measures that are wanted. */
  wanted: list(address),
  /** The step that the walk stands at; null where the first that is missing comes. */
  step: z.nullable(address),
  skipped: list(address),
  sights: named(sight),
  lights: named(light),
  snaps: z.boolean(),
  /** Length of the last marker, mm; absent until a person has written one. */
  marker: z.exactOptional(markerLength),
  /** Which way the toe points on pictures on which nothing tells it yet, as a person has said. */
  toes: z.optional(named(z.enum(['left', 'right']))),
  /** Places are proposed from the film before; absent: they are. */
  proposes: z.optional(z.boolean()),
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
};
