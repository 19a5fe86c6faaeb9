import type { PlaceEdit, PlaceResult } from '../../shared/protocol/placing.ts';
import { t } from '../../shared/language/words.ts';

/** The document as placing sees it, so that a test can hold it. */
export interface PlacingText {
  version(): number;
  ask(version: number): Promise<PlaceResult>;
  /** False where the editor would not have it. */
  apply(edits: readonly PlaceEdit[]): Promise<boolean>;
}

export type PlacedResult =
  { readonly written: true; readonly version: number } | { readonly written: false; readonly says: string };

const TRIES = 3;

/** Somebody may type while the server thinks: edits are applied to the very text they were made for, or asked for anew. */
export async function placeInText(text: PlacingText): Promise<PlacedResult> {
  let versionBefore = -1;
  for (let tries = 0; tries < TRIES; tries++) {
    const version = text.version();
    const answer = await text.ask(version);
    if (answer.kind === 'refused') {
      if (answer.stale) continue;
      return { written: false, says: answer.says };
    }
    if (answer.version !== text.version()) continue;
    if (answer.edits.length === 0 || (await text.apply(answer.edits)))
      return { written: true, version: text.version() };
    versionBefore = version;
  }
  // One text all the time: then it was not the typing.
  const still = versionBefore === text.version();
  return {
    written: false,
    says: still
      ? t('The editor would not change the case file, so nothing was written. See whether the file may be written to.')
      : t(
          'The text kept changing, so nothing was written. Wait until nobody types in the case file, then try it again.',
        ),
  };
}
