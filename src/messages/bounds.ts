import * as z from 'zod/mini';

/** Two types that are the same, or the compiler says where they differ: `Alike<A, B> & Alike<B, A>`. */
export type Alike<A extends B, B> = A;

/** How much a message may hold. Nothing that a case file can make comes near; what goes beyond was not made by one. */

/** UTF-16 units: a case file has 10 MB at most (`file/too-large`), and one text of it may be all of it. */
export const text = z.string().check(z.maxLength(10_000_000));
/** What names a film, a cut or a file: made of parts of the case, and never shown. */
export const address = z.string().check(z.maxLength(100_000));
export const line = z.number().check(z.int(), z.nonnegative(), z.lte(10_000_000));
export const list = <T extends z.ZodMiniType>(item: T) => z.readonly(z.array(item).check(z.maxLength(100_000)));
/** Things by their names, such as pictures by their paths. */
export const named = <T extends z.ZodMiniType>(thing: T) =>
  z.record(address, thing).check(z.refine((all) => Object.keys(all).length <= 100_000));
