import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { InspectSettings, Inspection } from '../../shared/findings/inspect.ts';
import type { PageGrounds } from '../../shared/protocol/page-grounds.ts';
import { usualStudy } from '../../shared/trim/study.ts';

/** The answer for a file that is not open. */
export const noGrounds: PageGrounds = {
  version: null,
  text: '',
  settings: usualStudy,
  levels: [],
  scales: [],
  missing: [],
};

/** What the inspection of an open document rests on, for whoever makes a page of it elsewhere. */
export function pageGrounds(
  { version }: Pick<TextDocument, 'version'>,
  { tree, study }: Pick<Inspection, 'tree' | 'study'>,
  { levels, ...settings }: InspectSettings,
): PageGrounds {
  return {
    version,
    text: tree.text,
    settings,
    levels: [...(levels ?? [])],
    scales: study.films.flatMap(({ film, stored }) => (stored ? [[film.path.text, stored] as const] : [])),
    missing: [...study.missing],
  };
}
