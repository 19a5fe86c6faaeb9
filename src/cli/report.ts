import { readFile } from 'node:fs/promises';
import { dirname, isAbsolute, relative, resolve } from 'node:path';
import { imageSize } from 'image-size';
import { inspect } from '../../shared/findings/inspect.ts';
import { reportPage, type ReportedCase, type ReportPicture } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/report/film-sheet.ts';
import { readCaseFiles } from './case-files.ts';
import { oneOf, Unusable, type Command } from './command.ts';
import { writeWhole } from './write-whole.ts';

export const report: Command = {
  name: 'report',
  usage: 'ungula report FILE… [--for vet] -o OUT.html',
  doc: 'One page with every film drawn to scale, its measures and findings; it needs nothing else and prints.',
  options: { for: { type: 'string' }, output: { type: 'string', short: 'o' } },
  async run(names, options, io) {
    const output = options['output'];
    if (typeof output !== 'string') throw new Unusable('report wants the page to write: -o OUT.html');
    if (!/\.html?$/i.test(output)) throw new Unusable(`${output}: this version writes .html pages only`);
    if (options['for'] === 'owner') throw new Unusable("the owner's page is not in this version; --for vet is");
    oneOf('for', options['for'], ['vet']);
    const { files, unreadable } = await readCaseFiles(names, io);
    const cases: ReportedCase[] = [];
    for (const { name, text } of files) {
      const inspection = inspect(text);
      const pictures = new Map<string, ReportPicture>();
      for (const { picture } of filmSheets(inspection))
        if (!pictures.has(picture)) pictures.set(picture, await readPicture(name, picture));
      cases.push({ file: name, inspection, pictures });
    }
    await writeWhole(output, reportPage(cases, new Date().toISOString().slice(0, 10)));
    io.out(`${resolve(output)}\n`);
    return unreadable ? 2 : 0;
  },
};

const kinds: Readonly<Record<string, string>> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
  gif: 'image/gif',
};

/** The picture as data in the page. Only pictures below the case file's folder are taken: a page is passed on, a disk is not. */
async function readPicture(caseFile: string, path: string): Promise<ReportPicture> {
  const folder = caseFile === '-' ? process.cwd() : dirname(resolve(caseFile));
  const from = relative(folder, resolve(folder, path));
  if (isAbsolute(path) || isAbsolute(from) || from.startsWith('..'))
    return { lack: `The picture ${path} lies outside the folder of the case file and was left out.` };
  try {
    const bytes = await readFile(resolve(folder, path));
    const { width, height, type } = imageSize(bytes);
    const mime = kinds[type ?? ''];
    if (!mime) return { lack: `The picture ${path} is of a kind (${type ?? 'unknown'}) that a page cannot show.` };
    return { href: `data:${mime};base64,${bytes.toString('base64')}`, width, height };
  } catch (error) {
    const missing = (error as NodeJS.ErrnoException).code === 'ENOENT';
    return { lack: missing ? `The picture ${path} is not there.` : `The picture ${path} cannot be read as a picture.` };
  }
}
