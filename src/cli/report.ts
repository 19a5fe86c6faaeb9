import { resolve } from 'node:path';
import { drawnOf, reportPage, type ReportedCase, type ReportPicture } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/report/film-sheet.ts';
import { readCaseFiles } from './case-files.ts';
import { inspected } from './inspected.ts';
import { referenceOption, settingsWith } from './reference-files.ts';
import { pictureFor } from './picture-files.ts';
import { oneOf, Unusable, type Command } from './command.ts';
import { writeWhole } from './write-whole.ts';

export const report: Command = {
  name: 'report',
  usage: 'ungula report FILE… [--for vet] [--reference FILE]… -o OUT.html',
  doc: 'One page with every film drawn to scale, its measures and findings; it needs nothing else and prints.',
  options: { for: { type: 'string' }, reference: referenceOption, output: { type: 'string', short: 'o' } },
  async run(names, options, io) {
    const output = options['output'];
    if (typeof output !== 'string') throw new Unusable('report wants the page to write: -o OUT.html');
    if (!/\.html?$/i.test(output)) throw new Unusable(`${output}: this version writes .html pages only`);
    if (options['for'] === 'owner') throw new Unusable("the owner's page is not in this version; --for vet is");
    oneOf('for', options['for'], ['vet']);
    const settings = await settingsWith(options['reference']);
    const { files, unreadable } = await readCaseFiles(names, io);
    const cases: ReportedCase[] = [];
    for (const file of files) {
      const { name } = file;
      const inspection = inspected(file, settings);
      const pictures = new Map<string, ReportPicture>();
      const sheets = filmSheets(inspection);
      for (const { picture } of drawnOf(sheets))
        if (!pictures.has(picture)) pictures.set(picture, await pictureFor(name, picture));
      cases.push({ file: name, inspection, sheets, pictures });
    }
    await writeWhole(output, reportPage(cases, new Date().toISOString().slice(0, 10)));
    io.out(`${resolve(output)}\n`);
    return unreadable ? 2 : 0;
  },
};
