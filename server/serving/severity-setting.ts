import { readLevels, type ReadLevels } from '../../shared/findings/engine/severity-levels.ts';

/** How gravely codes are told; as usual where the setting is no object. */
export function readSeverity(section: unknown): ReadLevels {
  const wished = typeof section === 'object' && section !== null ? (section as { severity?: unknown }).severity : null;
  return readLevels(typeof wished === 'object' && wished !== null ? Object.entries(wished) : []);
}

/** Says what of the setting cannot be had: each sentence once, and again only after it has been mended and broken anew. */
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
