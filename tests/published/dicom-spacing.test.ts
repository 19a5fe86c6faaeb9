import { describe, expect, it } from 'vitest';
import { spacingFrom, type SpacingAttributes, type Spacing } from '../../shared/picture/dicom-spacing.ts';

/**
 * Against the DICOM standard, PS3.3: 10.7 Basic Pixel Spacing Calibration Macro, C.8.11.4 (detector), C.8.11.5 (positioning),
 * C.8.6 (secondary capture), C.7.6.2 (image plane).
 */
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

function found(given: Partial<SpacingAttributes>): Spacing {
  const { spacing, why } = spacingFrom({ ...nothing, ...given });
  if (!spacing) throw new Error(why);
  return spacing;
}

function refused(given: Partial<SpacingAttributes>): string {
  const { spacing, why } = spacingFrom({ ...nothing, ...given });
  if (spacing) throw new Error(`gave ${spacing.mmPerPx}`);
  return why;
}

describe('magnification, M = source-detector / source-object', () => {
  it('a foot whose middle is 60 mm from the plate at 800 mm: 800 / 740 = 1.081', () => {
    const { mmPerPx, how, words } = found({
      imagerPixelSpacing: '0.15\\0.15',
      sourceToDetector: '800',
      sourceToPatient: '740',
    });
    expect(how).toBe('detector divided by the distances');
    expect(0.15 / mmPerPx).toBeCloseTo(1.081, 3);
    expect(words).toContain('800 / 740 = 1.081');
    // An object of 50 mm there throws a shadow of 54.05 mm, which is 360.4 pixels of 0.15 mm, and they must measure 50 mm again.
    const pixels = (50 * 800) / 740 / 0.15;
    expect(pixels).toBeCloseTo(360.36, 2);
    expect(pixels * mmPerPx).toBeCloseTo(50, 10);
  });

  it('the factor of the file does the same (C.8.11.5), and stands before the distances', () => {
    expect(found({ imagerPixelSpacing: '0.2\\0.2', magnificationFactor: '1.25' })).toMatchObject({
      mmPerPx: 0.16,
      how: 'detector divided by the magnification factor',
    });
    expect(
      found({
        imagerPixelSpacing: '0.2\\0.2',
        magnificationFactor: '1.25',
        sourceToDetector: '1000',
        sourceToPatient: '500',
      }).mmPerPx,
    ).toBe(0.16);
  });

  it('left uncorrected, the detector spacing makes the 50 mm object 54.05 mm, and says that it does so', () => {
    const { mmPerPx, how, words } = found({ imagerPixelSpacing: '0.15\\0.15' });
    expect(how).toBe('at the detector');
    expect(((50 * 800) / 740 / 0.15) * mmPerPx).toBeCloseTo(54.05, 2);
    expect(words).toMatch(/too long/);
  });

  it.each([
    ['0.9', 'a magnification below 1 cannot be'],
    ['108', 'a percentage'],
    ['0', 'a zero'],
    ['abc', 'no number'],
  ])('a factor of %s (%s) is not used', (magnificationFactor) => {
    expect(found({ imagerPixelSpacing: '0.15\\0.15', magnificationFactor })).toMatchObject({
      mmPerPx: 0.15,
      how: 'at the detector',
    });
    expect(
      found({ imagerPixelSpacing: '0.15\\0.15', magnificationFactor, sourceToDetector: '800', sourceToPatient: '740' })
        .how,
    ).toBe('detector divided by the distances');
  });

  it.each([
    ['740', '800'],
    ['0', '0'],
    ['800', ''],
    ['8000', '740'],
  ])('distances of %s and %s are not used', (sourceToDetector, sourceToPatient) => {
    expect(found({ imagerPixelSpacing: '0.15\\0.15', sourceToDetector, sourceToPatient }).how).toBe('at the detector');
  });
});

describe('which attribute counts', () => {
  const full = {
    imagerPixelSpacing: '0.15\\0.15',
    magnificationFactor: '1.2',
    sourceToDetector: '800',
    sourceToPatient: '740',
    nominalScannedPixelSpacing: '0.1\\0.1',
  };

  it.each([
    ['FIDUCIAL', 'calibrated by an object'],
    ['GEOMETRY', 'corrected by geometry'],
  ])('10.7.1.2: Pixel Spacing calibrated by %s stands before all', (calibrationType, how) => {
    expect(found({ ...full, pixelSpacing: '0.13\\0.13', calibrationType })).toMatchObject({ mmPerPx: 0.13, how });
  });

  it('10.7.1.2: with a calibration type, equal spacings count as calibrated all the same', () => {
    expect(found({ ...full, pixelSpacing: '0.15\\0.15', calibrationType: 'GEOMETRY' })).toMatchObject({
      mmPerPx: 0.15,
      how: 'corrected by geometry',
    });
  });

  it('10.7.1.1: Pixel Spacing that differs from Imager Pixel Spacing has been corrected', () => {
    expect(found({ ...full, pixelSpacing: '0.14\\0.14' })).toMatchObject({
      mmPerPx: 0.14,
      how: 'corrected, how unsaid',
    });
  });

  it('10.7.1.1: Pixel Spacing equal to Imager Pixel Spacing and no calibration type is detector spacing', () => {
    expect(found({ pixelSpacing: '0.15\\0.15', imagerPixelSpacing: '0.150\\0.150' })).toMatchObject({
      mmPerPx: 0.15,
      how: 'at the detector',
    });
    expect(found({ ...full, pixelSpacing: '0.15\\0.15' })).toMatchObject({
      mmPerPx: 0.15 / 1.2,
      how: 'detector divided by the magnification factor',
    });
  });

  it('10.7.1.1 and C.8.6: the same of a scanned film', () => {
    expect(found({ nominalScannedPixelSpacing: '0.1\\0.1' })).toMatchObject({
      mmPerPx: 0.1,
      how: 'on the scanned film',
    });
    expect(found({ nominalScannedPixelSpacing: '0.1\\0.1', pixelSpacing: '0.1\\0.1' }).how).toBe('on the scanned film');
    expect(found({ nominalScannedPixelSpacing: '0.1\\0.1', pixelSpacing: '0.09\\0.09' })).toMatchObject({
      mmPerPx: 0.09,
      how: 'corrected, how unsaid',
    });
  });

  it('10.7.1.1, last paragraph: alone and without a type, nothing tells whether it was corrected', () => {
    const { mmPerPx, how, words } = found({ pixelSpacing: '0.14\\0.14', modality: 'DX' });
    expect([mmPerPx, how]).toEqual([0.14, 'stated without a plane']);
    expect(words).toMatch(/check it/);
  });

  it('C.7.6.2: of a section it lies in the section', () => {
    expect(found({ pixelSpacing: '0.661468\\0.661468', modality: 'CT' }).how).toBe('in the plane of the section');
  });

  it('an unknown calibration type is no calibration', () => {
    expect(found({ ...full, pixelSpacing: '0.15\\0.15', calibrationType: 'NONE' }).how).toBe(
      'detector divided by the magnification factor',
    );
  });

  it('nothing at all: the practitioner is told so', () => {
    expect(refused({})).toMatch(/does not say how large a pixel is/);
  });
});

describe('10.7.1.3: value order and valid values', () => {
  it('the first value is from row to row: the example 0.30\\0.25 of figure 10.7.1.3-1 is refused as not square, each value at its place', () => {
    expect(refused({ pixelSpacing: '0.30\\0.25', calibrationType: 'FIDUCIAL' })).toMatch(
      /0\.3 mm from row to row, 0\.25 mm from column to column/,
    );
    expect(refused({ imagerPixelSpacing: '0.30\\0.25' })).toMatch(/not square/);
    expect(refused({ nominalScannedPixelSpacing: '0.30\\0.25' })).toMatch(/not square/);
  });

  it('up to 0.1 % apart the mean is taken, beyond that nothing', () => {
    expect(found({ imagerPixelSpacing: '0.2000\\0.1999' }).mmPerPx).toBeCloseTo(0.19995, 10);
    expect(refused({ imagerPixelSpacing: '0.2000\\0.1997' })).toMatch(/not square/);
  });

  it('not square is refused even where a square spacing of lower rank is there: the picture is what is stretched', () => {
    expect(
      refused({ pixelSpacing: '0.14\\0.15', calibrationType: 'FIDUCIAL', imagerPixelSpacing: '0.15\\0.15' }),
    ).toMatch(/not square/);
  });

  it('Pixel Aspect Ratio (C.7.6.3.1.7) tells of pixels that are not square where there is no spacing', () => {
    expect(refused({ pixelAspectRatio: '4\\3' })).toMatch(/not square \(4 to 3\)/);
    expect(refused({ pixelAspectRatio: '1\\1' })).toMatch(/does not say/);
  });

  it.each(['0.15', '0.15\\0.15\\0.15', '0\\0', '-0.15\\-0.15', '0,15\\0,15', 'NaN\\NaN', '\\', '1e999\\1e999'])(
    '"%s" is no pair of lengths',
    (pixelSpacing) => {
      expect(refused({ pixelSpacing })).toContain(`"${pixelSpacing}"`);
    },
  );

  it('an unreadable Pixel Spacing does not hide a readable Imager Pixel Spacing', () => {
    expect(found({ pixelSpacing: '0,15\\0,15', imagerPixelSpacing: '0.15\\0.15' }).how).toBe('at the detector');
  });

  it('decimal strings with exponents and blanks are numbers (PS3.5 6.2)', () => {
    expect(found({ imagerPixelSpacing: ' 1.5e-1\\+.15 ' }).mmPerPx).toBeCloseTo(0.15, 12);
  });
});
