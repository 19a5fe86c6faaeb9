import { readLevels, type ReadLevels } from '../../shared/findings/engine/severity-levels.ts';

/**
 * In an editor a file begins empty, and that is no error yet. On the command line, where files are done, it is one: an emptied
 * case must not pass for a sound one.
 */
const whileWriting = [['notation/empty', 'hint']] as const;

/** The severities of the setting; the usual ones where it is no object. */
export function readSeverity(section: unknown): ReadLevels {
  const wished = typeof section === 'object' && section !== null ? (section as { severity?: unknown }).severity : null;
  const read = readLevels(typeof wished === 'object' && wished !== null ? Object.entries(wished) : []);
  return { ...read, levels: new Map([...whileWriting, ...read.levels]) };
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
