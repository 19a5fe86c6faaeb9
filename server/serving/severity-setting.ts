import { readLevels, type ReadLevels } from '../../shared/findings/engine/severity-levels.ts';

/** The severities of the setting; the usual ones where it is no object. */
export function readSeverity(section: unknown): ReadLevels {
  const wished = typeof section === 'object' && section !== null ? (section as { severity?: unknown }).severity : null;
  return readLevels(typeof wished === 'object' && wished !== null ? Object.entries(wished) : []);
}

/** Warns of entries that cannot be used: once each, and again only after the entry was corrected and broken again. */
export class SeverityWords {
  private readonly say: (sentence: string) => void;
  private said: ReadonlySet<string> = new Set();

  constructor(say: (sentence: string) => void) {
    this.say = say;
  }

  use(section: unknown): void {
    const { unknown, kept } = readSeverity(section);
    const sentences = new Set([...unknown, ...kept]);
    for (const sentence of sentences) if (!this.said.has(sentence)) this.say(sentence);
    this.said = sentences;
  }
}
