import * as z from 'zod/mini';
import { placingBounds } from './placing-bounds.ts';
import { feet } from '../notation/choices.ts';
import { views } from '../notation/landmarks.ts';

/** The parts of a wish to place, as page, extension and server look at them before they believe them. All is bounded. */

/** What names a text or a file. */
const address = z.string().check(z.maxLength(100_000));
const line = z.number().check(z.int(), z.nonnegative(), z.lte(10_000_000));
const coordinate = z.number().check(z.gte(-placingBounds.px), z.lte(placingBounds.px));
const point = z.object({ x: coordinate, y: coordinate });
const ends = z.nullable(z.readonly(z.tuple([point, point])));

/** Which text, and in which version the client has it. */
export const textOfVersion = z.object({ uri: address, version: z.number().check(z.int()) });

export const lineOfText = line;

/** A number of a plan's heel cut: mm that come off, or mm in front of the contact from where on. */
export const heelNumber = { part: z.optional(z.enum(['down', 'from'])), mm: z.number().check(z.nonnegative()) };
export const isHeelNumber = z.refine<{ part?: 'down' | 'from' | undefined; mm: number }>(
  ({ part, mm }) => mm <= placingBounds.heel[part ?? 'down'],
  { path: ['mm'] },
);

/** mm. */
export const markerLength = z.number().check(z.gte(placingBounds.marker.low), z.lte(placingBounds.marker.high));

export const filmAddress = z.object({
  line,
  picture: address,
  foot: z.enum(feet),
  view: z.enum(views),
  reader: z.nullable(address),
});

const placement = z.discriminatedUnion('kind', [
  z.object({
    kind: z.literal('landmark'),
    name: z.string().check(z.maxLength(100)),
    at: z.nullable(point),
    spread: z.optional(z.nullable(z.number().check(z.gte(placingBounds.spread.low), z.lte(placingBounds.spread.high)))),
    followed: z.optional(z.literal(true)),
  }),
  z.object({ kind: z.literal('ground'), ends }),
  z.object({ kind: z.literal('bearing'), ends }),
  // A length that is no marker's is answered with a sentence: people write it.
  z.object({ kind: z.literal('marker'), ends, mm: z.nullable(z.number()) }),
]);
/**
 * What is put onto a film, moved on it, or (`null`) taken off it; places in pixels of the picture, y down. `mm`: length of the
 * marker; null where the length that is written stays. `spread`: one standard deviation of a landmark, px; null takes away what is
 * written, and without it that stays. `followed`: proposed by the film before and confirmed, `spread` then being all of its
 * deviation; a landmark that is placed without it is followed no more, and the spread that was written with it goes too.
 */
export type Placement = z.infer<typeof placement>;

const placed = (one: Placement): string => (one.kind === 'landmark' ? `landmark ${one.name}` : one.kind);

/** No film has as many landmarks, and each thing has one place. */
export const placements = z.readonly(
  z.array(placement).check(
    z.maxLength(200),
    z.refine((all) => new Set(all.map(placed)).size === all.length),
  ),
);
