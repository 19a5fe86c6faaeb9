import { expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { StoredScaleBook } from '../../server/stored-scales.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';

const document = TextDocument.create('file:///case/a.hoof', 'hoof', 1, '');

const dicom = (mm: string): Uint8Array =>
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

it('a picture that changes while it is looked at counts as it is afterwards, whichever look ends last', async () => {
  const reads: ((bytes: Uint8Array) => void)[] = [];
  let news = 0;
  const book = new StoredScaleBook(
    () => new Promise((resolve) => reads.push(resolve)),
    () => (news += 1),
  );
  const asked = () => book.of(document)('x.dcm');
  expect(asked()).toBeNull();
  book.forget(['file:///case/x.dcm']);
  expect(news).toBe(1);
  expect(asked()).toBeNull();
  expect(reads).toHaveLength(2);
  reads[1]?.(dicom('0.2'));
  await expect.poll(() => news).toBe(2);
  reads[0]?.(dicom('0.1'));
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(asked()).toMatchObject({ mmPerPx: 0.2 });
  expect(news).toBe(2);
  expect(reads).toHaveLength(2);
});
