import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import type { ByteSource } from '../../shared/picture/byte-source.ts';
import { spacingFrom, type SpacingAttributes } from '../../shared/picture/dicom-spacing.ts';
import { storedScale } from '../../shared/picture/stored-scale.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { reportPage } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { boneCase } from './bone-cases.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';

const codesIn = (text: string, code: string, stored?: StoredScale) =>
  inspect(text, undefined, undefined, () => stored ?? null).findings.filter((finding) => finding.code === code);

const nothing: SpacingAttributes = {
  pixelSpacing: null,
  calibrationType: null,
  imagerPixelSpacing: null,
  magnificationFactor: null,
  sourceToDetector: null,
  sourceToPatient: null,
  nominalScannedPixelSpacing: null,
  pixelAspectRatio: null,
  modality: null,
};

describe('where a scale from the picture’s own file comes from', () => {
  const stored: StoredScale = { mmPerPx: 0.1, words: 'The scale is that of the detector.', overstates: [5, 25] };
  const text = boneCase([{ scale: 'scale dicom' }]);

  // Magnification is source to detector over source to object (PS3.3 C.8.11.5): 1000 / 950 and 750 / 600; 1200 / 1150 and 1200 / 1050.
  it.each([
    ['at the detector', { imagerPixelSpacing: '0.1\\0.1' }, [5, 25]],
    ['at the detector, the tube 1.2 m away', { imagerPixelSpacing: '0.1\\0.1', sourceToDetector: '1200' }, [4, 14]],
    ['nominal', { nominalScannedPixelSpacing: '0.1\\0.1' }, [5, 25]],
    ['without calibration', { pixelSpacing: '0.1\\0.1' }, [0, 25]],
    ['calibrated', { pixelSpacing: '0.1\\0.1', calibrationType: 'FIDUCIAL' }, undefined],
    ['divided by the factor', { imagerPixelSpacing: '0.1\\0.1', magnificationFactor: '1.1' }, undefined],
  ] as const)('%s has its range', (_, given, overstates) => {
    expect(spacingFrom({ ...nothing, ...given }).spacing?.overstates).toEqual(overstates);
  });

  it('is an info at the scale line with the range, and nothing where the file has it calibrated', () => {
    const [finding] = codesIn(text, 'scale/from-file', stored);
    expect(finding).toMatchObject({
      severity: 'info',
      message: 'The scale is that of the detector. Lengths may be too long by 5 to 25 %.',
    });
    expect(text.slice(finding?.at.start, finding?.at.end)).toBe('scale dicom');
    expect(codesIn(text, 'scale/from-file', { mmPerPx: 0.1, words: 'As calibrated.' })).toEqual([]);
  });

  it('is said by the sheet, the report page and the export', () => {
    const inspection = inspect(text, undefined, undefined, () => stored);
    const words = 'The scale is that of the detector. Lengths may be too long by 5 to 25 %.';
    expect(filmSheets(inspection)[0]?.scaleWords).toBe(words);
    expect(reportPage([{ file: 'a', inspection, pictures: new Map() }], '2026-01-01')).toContain(words);
    expect(measuredCase('a', inspection).visits[0]?.films[0]).toMatchObject({
      scaleFrom: 'file',
      scaleWords: words,
    });
  });
});

describe('the side that a file says the limb is of', () => {
  it('is told at the picture where the film says the other', () => {
    const text = boneCase([{ scale: 'scale dicom' }]);
    const said = (side: 'left' | 'right'): StoredScale => ({ mmPerPx: 0.1, words: 'As calibrated.', side });
    expect(codesIn(text, 'picture/side', said('right'))[0]?.message).toContain('the limb is a right one');
    expect(codesIn(text, 'picture/side', said('left'))).toEqual([]);
    expect(codesIn(text, 'picture/side', { lack: 'No scale.', side: 'right' })).toHaveLength(1);
    // A file that is not asked for its scale is still looked into by its ending.
    expect(codesIn(boneCase([{ picture: 'a.dcm' }]), 'picture/side', said('right'))).toHaveLength(1);
    expect(codesIn(boneCase([{ picture: 'a.png' }]), 'picture/side', said('right'))).toEqual([]);
  });
});

const source = (bytes: Uint8Array): ByteSource => ({
  size: bytes.length,
  read: (start, length) => Promise.resolve(bytes.subarray(start, start + length)),
});

describe('what a DICOM file says of itself', () => {
  const said = (tags: Readonly<Record<string, string>>) =>
    storedScale(
      source(
        pictureFile(
          syntaxes.explicit,
          { width: 4, height: 3, more: Object.entries(tags).map(([tag, value]) => ({ tag, vr: 'CS', value })) },
          new Uint8Array(24),
        ),
      ),
      'a.dcm',
    );

  // Image Laterality is of the picture, Laterality of its series; U is unpaired, B both (PS3.3 C.7.3.1, C.8.11.1).
  it.each([
    [{ '00200062': 'L' }, 'left'],
    [{ '00200060': 'R' }, 'right'],
    [{ '00200062': 'R', '00200060': 'L' }, 'right'],
    [{ '00200062': 'B' }, undefined],
    [{ '00200062': 'U', '00200060': 'L' }, undefined],
    [{ '00200060': '' }, undefined],
    [{}, undefined],
  ] as const)('%j: %s', async (tags, side) => {
    expect((await said(tags)).side).toBe(side);
  });

  it('comes with the range of a scale at the detector', async () => {
    expect(await said({ '00181164': '0.15\\0.15' })).toMatchObject({ mmPerPx: 0.15, overstates: [5, 25] });
  });
});

describe('one picture under two films', () => {
  const twice = (films: Parameters<typeof boneCase>[0]) => codesIn(boneCase(films), 'picture/twice');

  it('is told under two feet and on two days, at the second, and not within one day and foot', () => {
    expect(twice([{ picture: 'a.png' }, { picture: 'a.png' }])).toHaveLength(1);
    const [feet] = twice([[{ picture: 'a.png' }, { picture: './a.png', foot: 'RF' }]]);
    expect(feet?.message).toContain('This picture is the film of the left fore');
    expect(feet?.related).toHaveLength(1);
    expect(twice([[{ picture: 'a.png' }, { picture: 'a.png' }]])).toEqual([]);
    expect(twice([{}, {}])).toEqual([]);
  });
});

describe('a film from before the birth', () => {
  it('is told', () => {
    const told = (foaled: string) => codesIn(boneCase([{}, {}], `foaled ${foaled}`), 'picture/before-birth');
    expect(told('2024-01-05')).toHaveLength(1);
    expect(told('2024-01-05')[0]?.message).toContain('before the animal was foaled (5 January 2024)');
    expect(told('2024-01-04')).toEqual([]);
    expect(told('2024-02')).toHaveLength(1);
  });
});
