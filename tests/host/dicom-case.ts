import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { pictureFile, syntaxes } from '../unit/picture-dicom-writer.ts';
import { expectEqual } from './checks.ts';

/** The case file that is added to the copied examples: one of them with its film as a DICOM picture that states its own scale. */
export const DICOM_CASE = 'with-dicom.hoof';

/** Width and height of its picture in pixels. */
export const dicomSize = [1400, 1200];

const mmPerPx = 0.18;

export function addDicomCase(workspace: string): void {
  const { width, height, data } = PNG.sync.read(readFileSync(join(workspace, 'films', 'bramble-lf-2026-02-10.png')));
  expectEqual([width, height], dicomSize, 'size of the film');
  const grey = new Uint8Array(width * height);
  for (let pixel = 0; pixel < grey.length; pixel++) grey[pixel] = data[4 * pixel] ?? 0;
  const spacing = [
    { tag: '00280030', vr: 'DS', value: `${mmPerPx}\\${mmPerPx}` },
    { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
  ];
  const file = pictureFile(syntaxes.explicit, { width, height, bitsAllocated: 8, more: spacing }, grey, 'OB');
  writeFileSync(join(workspace, 'films', 'bramble.dcm'), file);
  copyFileSync(join(workspace, 'films', 'bramble-rf-2026-02-10.png'), join(workspace, 'films', 'with-dicom-rf.png'));
  const text = readFileSync(join(workspace, 'bramble.hoof'), 'utf8')
    .replace('films/bramble-lf-2026-02-10.png', 'films/bramble.dcm')
    // A picture in two cases would be told of.
    .replaceAll('films/bramble-rf-2026-02-10.png', 'films/with-dicom-rf.png')
    // Another animal: two files of one are told in both.
    .replace('case "Bramble"', 'case "Willow"')
    .replace('EX01', 'EX09')
    .replace(/scale {3}100 mm.*/, 'scale   dicom')
    // So that something is told which rests on the scale.
    .replace('expect  sole-depth.tip 16 mm', 'expect  sole-depth.tip 30 mm');
  writeFileSync(join(workspace, DICOM_CASE), text);
}
