import { mkdirSync, mkdtempSync, realpathSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { filmText } from '../unit/plain-foot.ts';

/** A folder of case files that lasts as long as its test. */
export class CaseFolder {
  readonly path: string;

  constructor(files: Readonly<Record<string, string | Uint8Array>> = {}) {
    // A blank and a sign in the name, as people's folders have them.
    this.path = realpathSync(mkdtempSync(join(tmpdir(), "ungula cases' ")));
    for (const [name, content] of Object.entries(files)) this.write(name, content);
  }

  get uri(): string {
    return pathToFileURL(this.path).href;
  }

  uriOf(name: string): string {
    return pathToFileURL(join(this.path, name)).href;
  }

  write(name: string, content: string | Uint8Array): void {
    const path = join(this.path, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  }

  move(from: string, to: string): void {
    mkdirSync(dirname(join(this.path, to)), { recursive: true });
    renameSync(join(this.path, from), join(this.path, to));
  }

  remove(name = '.'): void {
    rmSync(join(this.path, name), { recursive: true, force: true });
  }
}

/** A short case with a study code, a film and what readers there are. */
export function smallCase({ name = 'A', code = '', readers = [] as readonly string[], more = '' } = {}): string {
  return `hoof 1
case "${name}"
${code === '' ? '' : `  code ${code}\n`}visit 2026-03-04 "first"
  film LF lateral "${name.toLowerCase()}.png"
    p3.tip @ 1, 2
${readers.map((reader) => `    read "${reader}"\n      p3.tip @ 5, 6\n`).join('')}${more}`;
}

/** A picture of 4 by 4 pixels whose spacing is calibrated in the plane of the foot. */
export const calibratedPicture = (mm: string): Uint8Array =>
  pictureFile(
    syntaxes.explicit,
    {
      width: 4,
      height: 4,
      more: [
        { tag: '00280030', vr: 'DS', value: `${mm}\\${mm}` },
        { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
      ],
    },
    new Uint8Array(32),
  );

/** A case whose film takes its scale from the picture. */
export const dicomCase = (path: string): string =>
  `hoof 1\ncase "X"\nvisit 2026-03-04\n${filmText({}, { header: `film LF lateral "${path}"`, scale: 'scale dicom' })}\n`;
