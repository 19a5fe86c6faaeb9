import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { alarmsOf } from '../../shared/views/alarms.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { pairSheets } from '../../shared/views/pair-sheet.ts';
import { tapeSheets } from '../../shared/views/tape-sheet.ts';
import { yardsticksIn } from '../../shared/views/yardsticks.ts';
import { visitSheets } from '../../shared/views/visit-sheet.ts';
import type { SheetsResult } from '../../shared/protocol/sheets.ts';

/** The answer for a file that is not open. */
export const noSheets: SheetsResult = {
  version: null,
  caseName: null,
  animal: { kind: null, heightMm: null },
  alarms: [],
  sheets: [],
  yardsticks: {},
  visits: [],
  tapes: [],
  pairs: [],
};

export function sheets(document: TextDocument, inspection: Inspection): SheetsResult {
  return {
    version: document.version,
    caseName: inspection.study.record.animal?.is.name ?? null,
    animal: { kind: inspection.study.animal.kind, heightMm: inspection.study.animal.heightMm },
    alarms: alarmsOf(inspection),
    sheets: filmSheets(inspection),
    yardsticks: yardsticksIn(inspection.study),
    visits: visitSheets(inspection),
    tapes: tapeSheets(inspection),
    pairs: pairSheets(inspection.study),
  };
}
