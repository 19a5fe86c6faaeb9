import { readdir, stat } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve } from 'node:path';
import { randomLcg } from 'd3-random';
import * as z from 'zod/mini';
import { addedReading } from '../../shared/edits/added-reading.ts';
import { blindText, type BlindFilm } from '../../shared/edits/blind-film.ts';
import { editedText } from '../../shared/edits/edited-text.ts';
import { shownLines } from '../../shared/export/shown-characters.ts';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import { t } from '../../shared/language/words.ts';
import { feet, pictureKinds } from '../../shared/notation/choices.ts';
import { views } from '../../shared/notation/landmarks.ts';
import type { Edit } from '../../shared/notation/problems.ts';
import { samePath } from '../../shared/picture/same-path.ts';
import type { Film, Reading } from '../../shared/record/schema.ts';
import { eachCase, readText } from './case-files.ts';
import { oneOf, Unusable, type Command, type Io, type OptionValue, type Status } from './command.ts';
import { inspected } from './inspected.ts';
import { numberOption } from './number-option.ts';
import { barePictureFor, rootFrom, rootOption } from './picture-files.ts';
import { CommandProblem, reason } from './problem.ts';
import { settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';

/** Which number is which film: for who runs the study, and not for who reads. */
const keySchema = z.object({
  ungula: z.literal(1),
  reader: z.string().check(z.minLength(1)),
  seed: z.number(),
  films: z.array(
    z.object({
      /** Of the file, and of its picture. */
      number: z.string().check(z.regex(/^\d{3,9}$/)),
      /** The first reading, the second. */
      time: z.int().check(z.gte(1), z.lte(9)),
      /** Of the case file, from the folder that was prepared. */
      case: z.string(),
      kind: z.enum(pictureKinds),
      foot: z.enum(feet),
      view: z.enum(views),
      /** As the case writes it. */
      picture: z.string(),
    }),
  ),
});
type StudyKey = z.infer<typeof keySchema>;
type KeyedFilm = StudyKey['films'][number];

const KEY = 'order.json';
const parts = ['scale', 'ground'] as const;

export const blind: Command = {
  name: 'blind',
  usage:
    'ungula blind FOLDER -o OUT --reader NAME --seed 7 [--times 2] [--without scale|ground]… [--root DIR]; then ungula blind FOLDER --join OUT [--further]',
  doc: 'A blind reading of a folder: each film in a file of its own without any value, name or date, in an order drawn by the seed; OUT/order.json says which is which. --join puts what was read back into the cases as readings by that person.',
  options: {
    output: { type: 'string', short: 'o' },
    reader: { type: 'string' },
    seed: { type: 'string' },
    times: { type: 'string' },
    without: { type: 'string', multiple: true },
    join: { type: 'string' },
    further: { type: 'boolean' },
    root: rootOption,
  },
  async run(names, options, io) {
    const [folder, ...more] = names;
    if (folder === undefined || more.length > 0 || folder === '-') throw new Unusable(t('blind takes one folder'));
    if (!(await stat(folder).catch(() => null))?.isDirectory()) throw new Unusable(t('{0} is no folder', folder));
    const { join: joined, ...prepared } = options;
    if (joined === undefined) return prepare(folder, prepared, io);
    const stray = ['output', 'reader', 'seed', 'times', 'without'].find((name) => options[name] !== undefined);
    if (stray !== undefined) throw new Unusable(t('--{0} does not go with --join', stray));
    return joinReadings(folder, String(joined), options['further'] === true, io);
  },
};

type Wishes = Readonly<Record<string, OptionValue>>;

async function prepare(folder: string, options: Wishes, io: Io): Promise<Status> {
  const { output, reader } = options;
  const seed = numberOption('seed', options['seed']);
  const times = numberOption('times', options['times']) ?? 1;
  const left = ((options['without'] ?? []) as readonly string[]).map((part) => oneOf('without', part, parts));
  if (options['further'] === true) throw new Unusable(t('--further goes with --join'));
  if (typeof output !== 'string' || output === '') throw new Unusable(t('blind wants a folder to write to: -o OUT'));
  if (typeof reader !== 'string' || reader.trim() === '' || /[\r\n]/.test(reader))
    throw new Unusable(t('blind wants the name of who will read: --reader NAME'));
  if (seed === null) throw new Unusable(t('blind wants a number to draw the order by: --seed 7'));
  if (!Number.isInteger(times) || !Number.isInteger(seed))
    throw new Unusable(t('--seed and --times take whole numbers'));
  await mustBeEmpty(output);
  const root = await rootFrom(options['root']);
  const settings = await settingsWith(undefined);
  const films: FoundFilm[] = [];
  const seen = new Set<string>();
  const problems = await eachCase([folder], io, async (file) => {
    if (isWithin(output, file.name)) return;
    const { study } = await inspected(file, settings, root);
    for (const { film, readings } of study.films) {
      const key = JSON.stringify([film.kind, film.foot, film.view, samePath(film.path.text, dirname(file.name))]);
      if (seen.has(key)) continue;
      seen.add(key);
      // A scale from the bone rests on what others have placed.
      const scale = film.scale?.kind === 'bone' ? null : (readings[0]?.taking.scale ?? null);
      films.push({ caseFile: file.name, film, scale });
    }
  });
  if (films.length === 0) {
    io.err(t('{0}: no film to read is in this folder', folder));
    return 2;
  }
  const order = drawnOrder(films, times, seed);
  const digits = Math.max(3, String(order.length).length);
  const numbered = order.map(({ film, time }, at) => ({ film, time, number: String(at + 1).padStart(digits, '0') }));
  const keyed: KeyedFilm[] = [];
  const lacking = new Set<FoundFilm>();
  // In the drawn order: the hours at which files were written would tell that of the cases.
  for (const { film: found, number, time } of numbered) {
    const { caseFile, film, scale } = found;
    if (lacking.has(found)) continue;
    const picture = await barePictureFor(caseFile, film.path.text, root);
    if ('lack' in picture) {
      lacking.add(found);
      problems.push(picture.lack);
      io.err(t('{0}: {1} The film is left out.', caseFile, picture.lack));
      continue;
    }
    const path = `pictures/${number}.${picture.ending === 'jpeg' ? 'jpg' : picture.ending}`;
    const at = join(output, readingFolder(time));
    const { kind, foot, view, ground, bearing } = film;
    const withGround = !left.includes('ground');
    const text: BlindFilm = {
      kind,
      foot,
      view,
      picture: path,
      scale: left.includes('scale') ? null : scale,
      ground: withGround && ground ? [ground.from, ground.to] : null,
      bearing: withGround && bearing ? [bearing.from, bearing.to] : null,
    };
    await saveFile(join(at, path), picture.bytes);
    await saveFile(join(at, `${number}.hoof`), blindText(text));
    const name = relative(folder, caseFile).replaceAll('\\', '/');
    keyed.push({ number, time, case: name, kind, foot, view, picture: film.path.text });
  }
  const key: StudyKey = {
    ungula: 1,
    reader,
    seed,
    films: keyed,
  };
  await saveFile(join(output, KEY), `${JSON.stringify(key, null, 2)}\n`);
  const readFolders = Array.from({ length: times }, (_, time) => join(output, readingFolder(time + 1)));
  io.out(
    shownLines([
      t('{0} films, to be read in {1}', keyed.length / times, readFolders.join(', ')),
      t('Keep {0} from who reads: it says which film is which.', join(output, KEY)),
    ]),
  );
  return problems.length > 0 ? 2 : 0;
}

interface FoundFilm {
  readonly caseFile: string;
  readonly film: Film;
  readonly scale: number | null;
}

const readingFolder = (time: number): string => `reading-${time}`;

/** Whether a path lies in a folder or is it. */
function isWithin(folder: string, path: string): boolean {
  const way = relative(resolve(folder), resolve(path));
  return way === '' || (!way.startsWith('..') && !isAbsolute(way));
}

/** What somebody has read already is not written over. */
async function mustBeEmpty(output: string): Promise<void> {
  const there = await readdir(output).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return [];
    throw new CommandProblem(t('{0}: {1}', output, reason(error)));
  });
  if (there.length > 0) throw new CommandProblem(t('{0} is not empty; name another folder', output));
}

/** Numbers that are drawn first hang together where seeds lie side by side. */
const PASSED_OVER = 16;

/** Each time in an order of its own: every film draws a number, and they stand by these. The same films and seed give the same order. */
function drawnOrder<T>(
  films: readonly T[],
  times: number,
  seed: number,
): { readonly film: T; readonly time: number }[] {
  const draw = randomLcg(seed);
  for (let count = 0; count < PASSED_OVER; count++) draw();
  return Array.from({ length: times }, (_, time) =>
    films
      .map((film) => ({ film, drawn: draw() }))
      .toSorted((one, other) => one.drawn - other.drawn)
      .map(({ film }) => ({ film, time: time + 1 })),
  ).flat();
}

async function joinReadings(folder: string, study: string, further: boolean, io: Io): Promise<Status> {
  const key = await keyOf(study);
  let failed = false;
  const fail = (line: string): void => {
    failed = true;
    io.err(line);
  };
  const read: { readonly film: KeyedFilm; readonly reading: Reading }[] = [];
  let open = 0;
  for (const film of key.films) {
    const path = join(study, readingFolder(film.time), `${film.number}.hoof`);
    try {
      const reading = readingOf(inspect(await readText(path)), film);
      if (reading) read.push({ film, reading });
      else open += 1;
    } catch (error) {
      fail(`${path}: ${reason(error)}`);
    }
  }
  const files = [...new Set(read.map(({ film }) => film.case))];
  let [added, there] = [0, 0];
  for (const name of files) {
    const path = join(folder, name);
    try {
      if (isAbsolute(name) || !isWithin(folder, path)) throw new CommandProblem(t('lies outside the folder'));
      const text = await readText(path);
      const edits: Edit[] = [];
      const inspection = inspect(text);
      const films = new Map(read.filter(({ film }) => film.case === name).map(({ film }) => [addressOf(film), film]));
      for (const film of films.values()) {
        const readings = read.filter(({ film: one }) => one.case === name && addressOf(one) === addressOf(film));
        const made = editsFor(
          inspection,
          film,
          readings.map(({ reading }) => reading),
          key.reader,
          further,
        );
        if ('refused' in made) fail(`${path}: ${made.refused}`);
        else {
          edits.push(...made.edits);
          added += made.edits.length;
          there += readings.length - made.edits.length;
        }
      }
      if (edits.length === 0) continue;
      await saveFile(path, editedText(text, edits), text);
      io.out(shownLines([path]));
    } catch (error) {
      fail(`${path}: ${reason(error, 'write')}`);
    }
  }
  io.out(
    shownLines([t('Readings by {0}: {1} added, {2} there already, {3} not read yet.', key.reader, added, there, open)]),
  );
  return failed ? 2 : 0;
}

async function keyOf(study: string): Promise<StudyKey> {
  const path = join(study, KEY);
  let json: unknown;
  try {
    json = JSON.parse(await readText(path));
  } catch (error) {
    throw new CommandProblem(error instanceof SyntaxError ? t('{0} is no JSON', path) : `${path}: ${reason(error)}`);
  }
  const key = z.safeParse(keySchema, json);
  if (!key.success) throw new CommandProblem(t('{0} is not the key of a blind reading', path));
  return key.data;
}

const addressOf = ({ kind, foot, view, picture }: KeyedFilm): string => JSON.stringify([kind, foot, view, picture]);

/** What was placed on the film of a numbered file; null where nothing was. */
function readingOf({ study }: Inspection, { kind, foot, view }: KeyedFilm): Reading | null {
  const film = study.films.find(({ film: one }) => one.kind === kind && one.foot === foot && one.view === view);
  if (!film) throw new CommandProblem(t('its film is not there any more'));
  const placed = film.film.readings.filter(({ placings }) => placings.length > 0);
  if (placed.length > 1) throw new CommandProblem(t('more than one reading is in it; leave the one that counts'));
  return placed[0] ?? null;
}

/** A reading that stands there already is not added again; another one by the same person only as a further one. */
function editsFor(
  { tree, study }: Inspection,
  { kind, foot, view, picture }: KeyedFilm,
  readings: readonly Reading[],
  reader: string,
  further: boolean,
): { readonly edits: readonly Edit[] } | { readonly refused: string } {
  const found = study.films.find(
    ({ film }) => film.kind === kind && film.foot === foot && film.view === view && film.path.text === picture,
  );
  const block = found && tree.blocks.find(({ start }) => start === found.visit.start);
  if (!found || !block) return { refused: t('the film “{0}” is not there any more', picture) };
  const own = found.film.readings.filter((one) => one.reader === reader && one.placings.length > 0);
  const others = own.filter((one) => !readings.some((reading) => isSame(one, reading)));
  if (others.length > 0 && !further)
    return {
      refused: t(
        '{0} has read the film “{1}” already, so nothing was added to it; --further adds a further reading',
        reader,
        picture,
      ),
    };
  const lineEnd = /\r\n|\n|\r/.exec(tree.text)?.[0] ?? '\n';
  return {
    edits: readings
      .filter((reading) => !own.some((one) => isSame(one, reading)))
      .map(({ placings }) => addedReading(block, found.film, reader, placings, lineEnd)),
  };
}

const isSame = (one: Reading, other: Reading): boolean =>
  one.placings.length === other.placings.length &&
  one.placings.every(({ name, x, y }) =>
    other.placings.some((place) => place.name === name && place.x === x && place.y === y),
  );
