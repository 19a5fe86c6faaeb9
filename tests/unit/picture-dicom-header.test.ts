import dcmjs from 'dcmjs';
import { describe, expect, it } from 'vitest';
import { decodeDicom } from '../../shared/picture/decode-dicom.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { pictureFile, syntaxes, type Element } from './picture-dicom-writer.ts';

const pixels = new Uint8Array(40 * 30 * 2);
const spacing: readonly Element[] = [
  { tag: '00080060', vr: 'CS', value: 'DX' },
  { tag: '00181110', vr: 'DS', value: '800' },
  { tag: '00181111', vr: 'DS', value: '740' },
  { tag: '00181164', vr: 'DS', value: '0.15\\0.15' },
];

describe("a DICOM file's header", () => {
  it.each(Object.entries(syntaxes))('%s: size and spacing', (_, syntax) => {
    const facts = readPictureInMemory(pictureFile(syntax, { width: 40, height: 30, more: spacing }, pixels));
    expect(facts).toMatchObject({
      kind: 'dicom',
      width: 40,
      height: 30,
      orientation: 1,
      noSpacing: null,
      problem: null,
    });
    expect(facts.spacing?.how).toBe('detector divided by the distances');
    expect(facts.spacing?.mmPerPx).toBeCloseTo((0.15 * 740) / 800, 12);
  });

  it.each<[string, readonly Element[], string, number]>([
    [
      'FIDUCIAL',
      [
        { tag: '00280030', vr: 'DS', value: '0.13\\0.13' },
        { tag: '00280a02', vr: 'CS', value: 'FIDUCIAL' },
      ],
      'calibrated by an object',
      0.13,
    ],
    [
      'magnification factor',
      [
        { tag: '00181164', vr: 'DS', value: '0.2\\0.2' },
        { tag: '00181114', vr: 'DS', value: '1.25' },
      ],
      'detector divided by the magnification factor',
      0.16,
    ],
    ['scanned film', [{ tag: '00182010', vr: 'DS', value: '0.1\\0.1' }], 'on the scanned film', 0.1],
    [
      'several frames, in the shared functional groups',
      [
        {
          tag: '52009229',
          vr: 'SQ',
          value: [[{ tag: '00289110', vr: 'SQ', value: [[{ tag: '00280030', vr: 'DS', value: '0.4\\0.4' }]] }]],
        },
      ],
      'stated without a plane',
      0.4,
    ],
  ])('spacing: %s', (_, more, how, mmPerPx) => {
    expect(
      readPictureInMemory(pictureFile(syntaxes.explicit, { width: 40, height: 30, more }, pixels)).spacing,
    ).toMatchObject({
      how,
      mmPerPx,
    });
    expect(
      readPictureInMemory(pictureFile(syntaxes.implicit, { width: 40, height: 30, more }, pixels)).spacing,
    ).toMatchObject({
      how,
      mmPerPx,
    });
  });

  it('oblong pixels and no spacing: a size, no spacing, and the reason', () => {
    const oblong = readPictureInMemory(
      pictureFile(
        syntaxes.explicit,
        { width: 40, height: 30, more: [{ tag: '00181164', vr: 'DS', value: '0.15\\0.2' }] },
        pixels,
      ),
    );
    expect(oblong).toMatchObject({ width: 40, spacing: null, problem: null });
    expect(oblong.noSpacing).toMatch(/not square/);
    expect(readPictureInMemory(pictureFile(syntaxes.explicit, { width: 40, height: 30 }, pixels)).noSpacing).toMatch(
      /how large a pixel is/,
    );
  });

  it('cut short in the picture, the header is read all the same', () => {
    const whole = pictureFile(syntaxes.explicit, { width: 40, height: 30, more: spacing }, pixels);
    expect(readPictureInMemory(whole.subarray(0, whole.length - 1000))).toMatchObject({
      width: 40,
      height: 30,
      problem: null,
    });
  });

  it('without a picture it is a report or the like', () => {
    expect(readPictureInMemory(pictureFile(syntaxes.explicit, { width: 0, height: 0 }, null)).problem).toMatch(
      /no picture/,
    );
  });

  it('as another library writes it (dcmjs), size, spacing and picture are the same', async () => {
    const values = Uint16Array.from({ length: 12 }, (_, i) => i * 300);
    const { DicomMetaDictionary, DicomDict } = dcmjs.data;
    const file = new DicomDict(
      DicomMetaDictionary.denaturalizeDataset({ TransferSyntaxUID: syntaxes.explicit, _vrMap: {} }),
    );
    file.dict = DicomMetaDictionary.denaturalizeDataset({
      Modality: 'DX',
      PatientName: 'Invented^Mare',
      PixelSpacing: ['0.14', '0.14'],
      PixelSpacingCalibrationType: 'GEOMETRY',
      Rows: 3,
      Columns: 4,
      SamplesPerPixel: 1,
      PhotometricInterpretation: 'MONOCHROME1',
      BitsAllocated: 16,
      BitsStored: 12,
      HighBit: 11,
      PixelRepresentation: 0,
      WindowCenter: '1650',
      WindowWidth: '3301',
      PixelData: values.buffer,
      _vrMap: { PixelData: 'OW' },
    });
    const bytes = new Uint8Array(file.write());
    expect(readPictureInMemory(bytes)).toMatchObject({
      width: 4,
      height: 3,
      spacing: { mmPerPx: 0.14, how: 'corrected by geometry' },
    });
    const { raster } = await decodeDicom(bytes);
    expect(Array.from(raster?.data ?? [])).toEqual(
      Array.from(values, (value) => 255 - Math.round(255 * ((value - 1649.5) / 3300 + 0.5))),
    );
  });
});
