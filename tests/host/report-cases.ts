import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { pictureFile, syntaxes, type Element } from '../unit/picture-dicom-writer.ts';

/** What the DICOM film of the cases says of its place in an archive. All invented. */
export const filed = {
  study: '2.25.101',
  series: '2.25.102',
  instance: '2.25.103',
  patient: 'EXAMPLE-17',
} as const;

/** Digital X-Ray Image Storage - For Presentation, PS3.4 B.5. */
const radiograph = '1.2.840.10008.5.1.4.1.1.1.1';

const place: readonly Element[] = [
  { tag: '00080016', vr: 'UI', value: radiograph },
  { tag: '00080018', vr: 'UI', value: filed.instance },
  { tag: '00080020', vr: 'DA', value: '20260210' },
  { tag: '00080030', vr: 'TM', value: '101500' },
  { tag: '00080050', vr: 'SH', value: '' },
  { tag: '00080060', vr: 'CS', value: 'DX' },
  { tag: '00100010', vr: 'PN', value: 'Example^Willow' },
  { tag: '00100020', vr: 'LO', value: filed.patient },
  { tag: '0020000d', vr: 'UI', value: filed.study },
  { tag: '0020000e', vr: 'UI', value: filed.series },
  { tag: '00200010', vr: 'SH', value: 'S-4' },
];

const spacing = '0.18\\0.18';

/** The DICOM film itself, of the drawn film of an example. */
export const filedFilm = (workspace: string): string => join(workspace, 'films', 'filed.dcm');

/** Cases that differ in what a report says of them, beside the examples. Each is a case file in the folder that is given. */
export function addReportCases(
  workspace: string,
): Readonly<Record<'filed' | 'detector' | 'unscaled' | 'followed', string>> {
  const { width, height, data } = PNG.sync.read(readFileSync(join(workspace, 'films', 'bramble-lf-2026-02-10.png')));
  const grey = new Uint8Array(width * height);
  for (let pixel = 0; pixel < grey.length; pixel++) grey[pixel] = data[4 * pixel] ?? 0;
  const written = (name: string, more: readonly Element[]): void =>
    writeFileSync(
      join(workspace, 'films', name),
      pictureFile(syntaxes.explicit, { width, height, bitsAllocated: 8, more: [...place, ...more] }, grey, 'OB'),
    );
  written('filed.dcm', [
    { tag: '00280030', vr: 'DS', value: spacing },
    { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
  ]);
  written('detector.dcm', [{ tag: '00181164', vr: 'DS', value: spacing }]);
  const bramble = readFileSync(join(workspace, 'bramble.hoof'), 'utf8');
  const withFilm = (file: string): string =>
    bramble.replace('films/bramble-lf-2026-02-10.png', `films/${file}`).replace(/scale {3}100 mm.*/, 'scale   dicom');
  const cases = {
    // Letters beyond Latin, which a report has to keep.
    filed: withFilm('filed.dcm').replace('case "Bramble"', 'case "صفصاف"'),
    detector: withFilm('detector.dcm'),
    unscaled: bramble.replaceAll(/^ *scale .*\n/gm, ''),
    followed: bramble.replaceAll(/^( *p3\.(?:tip|wing) .*?[\d.]+, +[\d.]+).*$/gm, '$1 +- 4 followed'),
  };
  const paths = Object.entries(cases).map(([name, text]) => {
    const path = join(workspace, `${name}-case.hoof`);
    writeFileSync(path, text);
    return [name, path] as const;
  });
  return Object.fromEntries(paths) as Record<keyof typeof cases, string>;
}
