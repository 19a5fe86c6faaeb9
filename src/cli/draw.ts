import { dirname, join, resolve } from 'node:path';
import { alone, themes, usualWidth, type Drawing } from '../../shared/drawing/alone.ts';
import { drawStave } from '../../shared/drawing/course/stave.ts';
import type { LayerName, Scene } from '../../shared/drawing/scene.ts';
import { alarmLines } from '../../shared/export/alarms.ts';
import { shownLines } from '../../shared/export/shown-characters.ts';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { t } from '../../shared/language/words.ts';
import { feet, type FootName } from '../../shared/notation/choices.ts';
import { isFoot } from '../../shared/notation/vocabulary.ts';
import { newestDays } from '../../shared/report/newest-days.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import { chosenRows, courseBegins, staveOf, stopsOf, withDaysOf } from '../../shared/views/course-stave.ts';
import { eachCase, type CaseFile } from './case-files.ts';
import { oneOf, Unusable, type Command, type Io, type OptionValue } from './command.ts';
import { dayOption, onOption } from './day-option.ts';
import { drawingKind, mayBecomeTheDrawing, type DrawingKind } from './drawing-file.ts';
import { filmOf, filmScene, type FilmWishes, type WantedFilm } from './drawn-film.ts';
import { inspected } from './inspected.ts';
import { numberOption } from './number-option.ts';
import { PageRoom } from './page-room.ts';
import { pictureFor, rootFrom, rootOption } from './picture-files.ts';
import { CommandProblem, reason } from './problem.ts';
import { rasterLettering, rasterOf } from './raster.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { saveFile } from './save-file.ts';

const views = ['lateral', 'front', 'solar', 'course'] as const;
const themeNames = ['light', 'dark', 'print'] as const satisfies readonly (keyof typeof themes)[];

/** What may be left out of a plate: the film, its words, and layers as in the menu of the preview. */
const parts = ['film', 'lettering', 'bones', 'capsule', 'soft', 'landmarks'] as const;
type PlatePart = (typeof parts)[number];

/** Of film and course by themselves: what the other would pass over without a word. */
const ofFilms = ['on', 'reader', 'over', 'cut', 'without', 'true-size', 'outline', 'with-film'] as const;
/** What an outline has none of. */
const notOfOutlines = ['over', 'cut', 'width'] as const;

interface DrawRequest {
  readonly output: string;
  readonly kind: DrawingKind;
  readonly isCourse: boolean;
  /** All measures of a course. */
  readonly all: boolean;
  readonly film: WantedFilm;
  readonly wishes: FilmWishes;
  readonly withFilm: boolean;
  readonly theme: (typeof themeNames)[number];
  /** CSS pixels of a drawing, pixels of a picture; null for the usual. */
  readonly width: number | null;
  readonly trueSize: boolean;
}

/** Pixels of a picture to one of its drawing, as in the preview: sharp in print. */
const SHARP = 2;
/** 300 to an inch, as printers have it. */
const perMm = 300 / 25.4;
/** Pixels; four bytes each, and the renderer holds the picture whole. */
const mostPixels = 100_000_000;

export const draw: Command = {
  name: 'draw',
  usage:
    'ungula draw FILE [--view lateral|front|solar|course] [--foot LF] [--on DATE] [--reader NAME] [--over normal|DATE] [--cut] [--without film|lettering|bones|capsule|soft|landmarks]… [--all] [--theme light|dark|print] [--width PIXELS | --true-size | --outline [--with-film]] [--reference FILE]… [--root DIR] -o OUT.svg|.png',
  doc: 'One drawing of a case: the foot of a film, with another film or a normal foot laid over it, or the course of a foot. Without a word on which, the newest lateral film. With --outline only lines to draw on by hand, to true size, without a value, a name or a landmark.',
  options: {
    view: { type: 'string' },
    foot: { type: 'string' },
    on: { type: 'string' },
    reader: { type: 'string' },
    over: { type: 'string' },
    cut: { type: 'boolean' },
    without: { type: 'string', multiple: true },
    all: { type: 'boolean' },
    theme: { type: 'string' },
    width: { type: 'string' },
    'true-size': { type: 'boolean' },
    outline: { type: 'boolean' },
    'with-film': { type: 'boolean' },
    reference: referenceOption,
    root: rootOption,
    output: { type: 'string', short: 'o' },
  },
  async run(names, options, io) {
    const asked = askedFor(options);
    const settings = await settingsWith(options['reference']);
    const root = await rootFrom(options['root']);
    const cases: { readonly file: CaseFile; readonly inspection: Inspection }[] = [];
    const problems = await eachCase(names, io, async (file) => {
      cases.push({ file, inspection: await inspected(file, settings, root) });
    });
    const [first] = cases;
    if (!first) return 2;
    if (cases.length > 1) throw new Unusable(t('a drawing is of one case; here are {0}', cases.length));
    const { file, inspection } = first;
    const alarms = alarmLines(file.name, alarmsOf(inspection));
    // A drawing has no room for them, and goes to others.
    for (const line of alarms) io.err(line);
    let content: string | Uint8Array;
    try {
      content = await contentOf(asked, file, inspection, root, io);
    } catch (error) {
      io.err(`${file.name}: ${reason(error)}`);
      return 2;
    }
    try {
      const folder = dirname(file.name);
      const pictures = inspection.study.record.visits.flatMap(({ is }) =>
        is.films.map(({ path }) => join(folder, path.text)),
      );
      await mayBecomeTheDrawing(asked.output, file.real, pictures);
      await saveFile(asked.output, content);
    } catch (error) {
      io.err(`${asked.output}: ${reason(error, 'write')}`);
      return 2;
    }
    io.out(shownLines([resolve(asked.output)]));
    return problems.length > 0 ? 2 : 0;
  },
};

function askedFor(options: Readonly<Record<string, OptionValue>>): DrawRequest {
  const { output, foot, on, reader, over, view } = options;
  if (typeof output !== 'string') throw new Unusable(t('draw wants the drawing to write: -o OUT.svg or -o OUT.png'));
  const kind = drawingKind(output);
  if (kind === null) throw new Unusable(t('{0}: a drawing is an .svg or a .png', output));
  if (typeof foot === 'string' && !isFoot(foot))
    throw new Unusable(t('--foot takes {0}; not {1}', feet.join(', '), foot));
  const shown = view === undefined ? null : oneOf('view', view, views);
  const isCourse = shown === 'course';
  const stray = isCourse ? ofFilms.find((name) => options[name] !== undefined) : options['all'] ? 'all' : undefined;
  if (stray !== undefined)
    throw new Unusable(
      isCourse ? t('--{0} does not go with --view course', stray) : t('--{0} goes with --view course only', stray),
    );
  const left = ((options['without'] ?? []) as readonly string[]).map((part) => oneOf('without', part, parts));
  const width = numberOption('width', options['width']);
  const isOutline = options['outline'] === true;
  const trueSize = isOutline || options['true-size'] === true;
  const lost = isOutline ? notOfOutlines.find((name) => options[name] !== undefined) : undefined;
  if (lost !== undefined) throw new Unusable(t('--{0} does not go with --outline', lost));
  if (options['with-film'] === true && !isOutline) throw new Unusable(t('--with-film goes with --outline only'));
  if (trueSize && width !== null) throw new Unusable(t('--width and --true-size do not go together'));
  return {
    output,
    kind,
    isCourse,
    all: options['all'] === true,
    film: {
      foot: (foot as FootName | undefined) ?? null,
      view: isCourse ? null : shown,
      date: on === undefined ? null : onOption(String(on)),
      reader: reader === undefined ? null : String(reader),
    },
    wishes: {
      over: over === undefined || over === 'normal' ? (over ?? null) : overOption(String(over)),
      cut: options['cut'] === true,
      isLettered: !isOutline && !left.includes('lettering'),
      isOutline,
      hidden: left.filter(isLayer),
    },
    withFilm: isOutline ? options['with-film'] === true : !left.includes('film'),
    theme: isOutline && options['theme'] === undefined ? 'print' : oneOf('theme', options['theme'], themeNames),
    width,
    trueSize,
  };
}

const isLayer = (part: PlatePart): part is PlatePart & LayerName => part !== 'film' && part !== 'lettering';

const overOption = (written: string): string =>
  dayOption(written, t('--over takes normal, or the date of a film such as 2026-05-28; not {0}', written));

async function contentOf(
  asked: DrawRequest,
  file: CaseFile,
  inspection: Inspection,
  root: readonly string[],
  io: Io,
): Promise<string | Uint8Array> {
  const { scene, scale } = asked.isCourse
    ? { scene: courseScene(asked, file, inspection), scale: null }
    : await filmDrawing(asked, file, inspection, root, io);
  const says = alarmsOf(inspection).map(({ message }) => message);
  const { trueSize, theme, kind, isCourse } = asked;
  const usual = isCourse ? usualWidth.course : usualWidth.plate;
  const width = trueSize && scale !== null ? scene.view.width * scale : (asked.width ?? usual);
  const palette = kind === 'png' ? { ...themes[theme], lettering: `'${rasterLettering}'` } : themes[theme];
  const drawing = alone(scene, { width, palette, says, ...(trueSize && { sizeIn: 'mm' }) });
  if (kind === 'svg') return drawing.svg;
  const { png, lacks } = await rasterOf(drawing.svg, pixelsOf(drawing, asked));
  if (lacks.length > 0)
    io.err(
      `${asked.output}: ${t('these letters are boxes in the picture, as no font here has them: {0}', lacks.join(' '))}`,
    );
  return png;
}

/** @throws CommandProblem where the picture would be too large to be held. */
function pixelsOf({ width, height }: Drawing, { trueSize, ...asked }: DrawRequest): Parameters<typeof rasterOf>[1] {
  const across = Math.round(trueSize ? width * perMm : (asked.width ?? SHARP * width));
  const down = Math.round((across * height) / width);
  if (across * down > mostPixels)
    throw new CommandProblem(
      t('the picture would have {0} by {1} pixels; write an .svg, or give a --width', across, down),
    );
  return { width: across, perMm: trueSize ? perMm : null };
}

async function filmDrawing(
  asked: DrawRequest,
  { name }: CaseFile,
  inspection: Inspection,
  root: readonly string[],
  io: Io,
): Promise<{ readonly scene: Scene; readonly scale: number | null }> {
  const sheet = filmOf(inspection, asked.film);
  if (asked.trueSize && sheet.scale === null)
    throw new CommandProblem(t('{0}: without a scale its true size is not known', sheet.title));
  const film = asked.withFilm
    ? await pictureFor({ caseFile: name, path: sheet.picture, times: 1 }, root, new PageRoom())
    : null;
  // The renderer knows no WebP, and would leave the film out without a word.
  const picture =
    asked.kind === 'png' && film && 'href' in film && film.href.startsWith('data:image/webp')
      ? { lack: t('The picture {0} is a WebP, which goes into an .svg only.', sheet.picture) }
      : film;
  if (picture && 'lack' in picture) io.err(`${name}: ${t('{0} The foot is drawn alone.', picture.lack)}`);
  return { scene: filmScene(inspection, sheet, picture, asked.wishes), scale: sheet.scale };
}

function courseScene({ film, all }: DrawRequest, file: CaseFile, inspection: Inspection): Scene {
  const sheets = courseSheet(inspection).feet.map((one) => newestDays(one));
  const foot = sheets.find((one) => one.foot === (film.foot ?? one.foot) && stopsOf(one).length > 1);
  if (!foot) throw new CommandProblem(courseBegins());
  const rows = chosenRows(foot, all ? foot.rows.map(({ measure }) => measure) : null);
  const caseName = inspection.study.record.animal?.is.name ?? file.name;
  return drawStave(staveOf(withDaysOf(foot, rows), rows, { width: usualWidth.course, caseName, alone: true })).scene;
}
