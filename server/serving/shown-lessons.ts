import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { isLesson, toldInText } from '../../shared/findings/withheld.ts';
import { keyOf } from '../workspace/file-key.ts';

/**
 * Of which lessons the whole key has been shown, as the page last told it. Until then what stands beside the text, such as findings,
 * hints and hovers, says nothing of the values.
 */
export class ShownLessons {
  private readonly shown = new Set<string>();
  private readonly inText = new WeakMap<Inspection, Inspection>();

  /** @returns whether that is other than before. */
  tell(uri: string, isShown: boolean): boolean {
    const file = keyOf(uri);
    const before = this.shown.has(file);
    if (isShown) this.shown.add(file);
    else this.shown.delete(file);
    return before !== isShown;
  }

  /** Whether values of this document are kept back. */
  keepsBack({ uri }: Pick<TextDocument, 'uri'>, { study }: Pick<Inspection, 'study'>): boolean {
    return isLesson(study) && !this.isShown(uri);
  }

  isShown(uri: string): boolean {
    return this.shown.has(keyOf(uri));
  }

  /** The inspection as it is told beside the text. */
  told(document: Pick<TextDocument, 'uri'>, inspection: Inspection): Inspection {
    if (!this.keepsBack(document, inspection)) return inspection;
    // The same object each time: others remember by it.
    const known = this.inText.get(inspection) ?? {
      ...inspection,
      findings: toldInText(inspection.study, inspection.findings, false),
    };
    this.inText.set(inspection, known);
    return known;
  }
}
