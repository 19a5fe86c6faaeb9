import * as z from 'zod/mini';
import type { ToldFilm } from '../../shared/agreement/told-readings.ts';
import { feet, pictureKinds } from '../../shared/notation/choices.ts';
import { views } from '../../shared/notation/landmarks.ts';
import { readingsOf, type ReadingsResult } from '../../shared/protocol/readings.ts';
import { address, line, list, named, text, type Alike } from './bounds.ts';

/** What was read on the films of a case or a folder, as extension and page tell it each other. */

const point = z.object({ x: z.number(), y: z.number() });

const readFilm = z.object({
  kind: z.enum(pictureKinds),
  view: z.enum(views),
  foot: z.enum(feet),
  file: z.nullable(text),
  date: z.nullable(text),
  line,
  ground: z.nullable(z.readonly(z.tuple([point, point]))),
  readings: list(
    z.object({ reader: text, values: named(z.number()), places: named(point), scale: z.nullable(z.number()) }),
  ),
});

const read = {
  of: z.enum(readingsOf),
  files: z.number(),
  lack: z.nullable(text),
  films: list(readFilm),
  copies: z.number(),
  followed: z.number(),
};
export const readingsMessage = z.object({ type: z.literal('readings'), uri: address, ...read });

const whole = z.object(read);
export type ReadingsSheet = Omit<ReadingsResult, 'version'>;
export type CheckedReadings = Alike<z.infer<typeof whole>, ReadingsSheet> & Alike<ReadingsSheet, z.infer<typeof whole>>;
export type CheckedReadFilm = Alike<z.infer<typeof readFilm>, ToldFilm> & Alike<ToldFilm, z.infer<typeof readFilm>>;

/** Which of it a person has chosen to see; a measure and two readers by their keys, null where nothing was chosen. */
export const agreementChoice = z.object({
  of: z.enum(readingsOf),
  all: z.boolean(),
  measure: z.nullable(text),
  pair: z.nullable(text),
});
export type AgreementChoice = z.infer<typeof agreementChoice>;
