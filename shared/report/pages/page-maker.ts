import type { Refusal } from '../../picture/picture-files.ts';
import type { SeverityLevels } from '../../findings/engine/severity-levels.ts';
import { inspect, type InspectSettings, type Inspection } from '../../findings/inspect.ts';
import type { StoredScale } from '../../measures/take.ts';
import type { ReportPicture } from '../page.ts';
import { handedPage, picturesOfPage, type PageReader } from './handed-page.ts';

/** All that an inspection rests on, as plain data, so that another process says the same of a text. */
export interface CaseGrounds {
  readonly text: string;
  readonly settings: Omit<InspectSettings, 'levels'>;
  readonly levels: readonly (readonly [code: string, level: string])[];
  /** What the files of pictures say of their scale, by path as written; where it is known. */
  readonly scales: readonly (readonly [path: string, scale: StoredScale])[];
  /** Pictures that are known not to be there, and why each is none. */
  readonly missing: readonly (readonly [path: string, why: Refusal])[];
}

/** A page that is made beside the editor. */
export interface PageQuestion {
  readonly grounds: CaseGrounds;
  readonly reader: PageReader;
  /** YYYY-MM-DD. */
  readonly date: string;
  readonly names: boolean;
  /** By path; null where only the paths are asked for that the page would show. */
  readonly pictures: readonly (readonly [path: string, picture: ReportPicture])[] | null;
}

export type PageAnswer = { readonly wants: readonly string[] } | { readonly html: string };

/** What the editor's own answers rest on too. */
export function inspectionOf({ text, settings, levels, scales, missing }: CaseGrounds): Inspection {
  const known = new Map(scales);
  const absent = new Map(missing);
  return inspect(
    text,
    { ...settings, levels: new Map(levels) as SeverityLevels },
    undefined,
    (path) => known.get(path) ?? null,
    (path) => absent.get(path) ?? false,
  );
}

/** The page by the same grounds as the editor's own answers; or first the pictures that it shows. */
export function madePage({ grounds, reader, date, names, pictures }: PageQuestion): PageAnswer {
  const inspection = inspectionOf(grounds);
  if (pictures === null) return { wants: [...new Set(picturesOfPage(reader, inspection))] };
  return { html: handedPage(reader, { inspection, pictures: new Map(pictures), date, names }) };
}
