import { describe, expect, it } from 'vitest';
import { newFilms } from '../../shared/edits/film-notation.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { saidInFile } from '../../shared/picture/dicom-said.ts';
import { saidBy } from '../../src/extension/said-by-file.ts';
import { pictureFile, syntaxes, type Element, type Value } from './picture-dicom-writer.ts';

/**
 * What a DICOM file says of a film. Tags and forms of values by PS3.3 and PS3.5 of the standard; codes with their meanings by the context
 * groups CID 7482 (regions) and CID 7484 (views) of PS3.16, looked up in pydicom 2.3.1, the older letters in its table of SNOMED codes.
 */

const el = (tag: string, vr: string, value: Value): Element => ({ tag, vr, value });
const file = (...more: Element[]): Uint8Array =>
  pictureFile(syntaxes.explicit, { width: 2, height: 2, bitsAllocated: 8, more }, new Uint8Array(4));
const said = (...more: Element[]) => saidInFile(file(...more));
const code = (scheme: string, value: string, meaning: string): Element[] => [
  el('00080100', 'SH', value),
  el('00080102', 'SH', scheme),
  el('00080104', 'LO', meaning),
];
const nothing = { taken: null, scale: false, side: null, limb: null, view: null };

describe('when a picture was taken', () => {
  const day = (...more: Element[]) => said(...more)?.taken;
  const study = el('00080020', 'DA', '20260101');
  const content = el('00080023', 'DA', '20260102');

  it('is the day of the acquisition, else of the study, else of the content, which may be that of a copy', () => {
    expect(day(study)).toBe('2026-01-01');
    expect(day(content)).toBe('2026-01-02');
    expect(day(study, content)).toBe('2026-01-01');
    expect(day(study, content, el('00080022', 'DA', '20260103'))).toBe('2026-01-03');
    expect(day(study, content, el('0008002a', 'DT', '20260104235959.123456+0100'))).toBe('2026-01-04');
    expect(day(study, content, el('00080022', 'DA', ''))).toBe('2026-01-01');
    expect(day()).toBeNull();
  });

  it('is read as the standard writes a day, now and in its first versions', () => {
    expect(day(el('00080022', 'DA', '2026.02.28'))).toBe('2026-02-28');
    for (const odd of ['20260230', '2026', '202603', '00000000', '20261301', '2026-03-04', '20260304 SMITH', 'SMITH'])
      expect([odd, day(el('00080022', 'DA', odd))]).toEqual([odd, null]);
  });

  it('is never a day of the patient, nor that of the series, the file or a report', () => {
    for (const tag of ['00100030', '00080021', '00080012', '00080025', '00400244', '001021d0'])
      expect([tag, day(el(tag, 'DA', '20200202'))]).toEqual([tag, null]);
  });
});

describe('a scale', () => {
  const spacing = el('00280030', 'DS', '0.14\\0.14');
  const imager = el('00181164', 'DS', '0.15\\0.15');

  it('is proposed where it holds at the foot', () => {
    expect(said(spacing, el('00280a02', 'CS', 'FIDUCIAL'))?.scale).toBe(true);
    expect(said(spacing, imager)?.scale).toBe(true);
    expect(said(imager, el('00181114', 'DS', '1.07'))?.scale).toBe(true);
  });

  it('is not where it is the detector’s, nobody knows which, or none', () => {
    expect(said(imager)?.scale).toBe(false);
    expect(said(spacing)?.scale).toBe(false);
    expect(said(el('00280030', 'DS', '14\\14'), el('00280a02', 'CS', 'FIDUCIAL'))?.scale).toBe(false);
    expect(said()?.scale).toBe(false);
  });
});

describe('foot and view', () => {
  const region = (...item: Element[]): Element => el('00082218', 'SQ', [item]);
  const view = (...item: Element[]): Element => el('00540220', 'SQ', [item]);

  it.each([
    ['SCT', '419176008', 'Forefoot', 'fore'],
    ['SRT', 'T-D04F2', 'Forefoot', 'fore'],
    ['SNM3', 'T-D04F2', 'Forefoot', 'fore'],
    ['SCT', '31329001', 'Pastern of forefoot', 'fore'],
    ['SCT', '30518006', 'Navicular of forefoot', 'fore'],
    ['SCT', '13190002', 'Fetlock of forelimb', 'fore'],
    ['SCT', '416804009', 'Hindfoot', 'hind'],
    ['SRT', 'T-D9713', 'Hindfoot', 'hind'],
    ['SCT', '18525008', 'Pastern of hindfoot', 'hind'],
    ['SCT', '75772009', 'Navicular of hindfoot', 'hind'],
    ['SCT', '113351006', 'Fetlock of hindlimb', 'hind'],
    ['UMLS', 'C3669027', 'Distal phalanx', null],
    ['99MINE', '419176008', 'Forefoot', null],
    ['SCT', 'constructor', 'Forefoot', null],
  ])('%s %s (%s) is of a limb: %s', (scheme, value, meaning, limb) => {
    expect(said(region(...code(scheme, value, meaning)))).toEqual({ ...nothing, limb });
    expect(said(el('00082228', 'SQ', [code(scheme, value, meaning)]))).toEqual({ ...nothing, limb });
  });

  it.each([
    ['SCT', '399352003', 'Lateromedial', 'lateral', null],
    ['SRT', 'R-10228', 'Lateromedial', 'lateral', null],
    ['SCT', '399260004', 'Mediolateral', 'lateral', null],
    ['SCT', '399067008', 'lateral', 'lateral', null],
    ['SCT', '441505008', 'Dorsopalmar', 'front', 'fore'],
    ['SCT', '399335002', 'dorsoplantar', 'front', 'hind'],
    ['SCT', '442609006', 'Dorsal 65 degree proximal-palmarodistal oblique', null, null],
    ['SCT', '442657000', 'Dorsolateral-palmaromedial oblique', null, null],
  ])('%s %s (%s) is a view: %s, of a limb: %s', (scheme, value, meaning, is, limb) => {
    expect(said(view(...code(scheme, value, meaning)))).toEqual({ ...nothing, view: is, limb });
  });

  it('a view that is modified is another one, and its code comes before the older words', () => {
    const modifier = el('00540222', 'SQ', [code('SCT', '399182000', 'oblique')]);
    expect(said(view(...code('SCT', '399352003', 'Lateromedial'), modifier))?.view).toBeNull();
    expect(said(el('00185101', 'CS', 'LL'))?.view).toBe('lateral');
    expect(said(el('00185101', 'CS', 'RL'))?.view).toBe('lateral');
    expect(said(el('00185101', 'CS', 'AP'))?.view).toBeNull();
    expect(said(el('00185101', 'CS', 'LL'), view(...code('SCT', '441505008', 'Dorsopalmar')))?.view).toBe('front');
  });

  it('codes that contradict each other say nothing', () => {
    const hind = region(...code('SCT', '416804009', 'Hindfoot'));
    expect(said(hind, view(...code('SCT', '441505008', 'Dorsopalmar')))).toEqual({ ...nothing, view: 'front' });
  });

  it('the side is that of the image, else of the series', () => {
    expect(said(el('00200062', 'CS', 'L'))?.side).toBe('left');
    expect(said(el('00200060', 'CS', 'R'))?.side).toBe('right');
    expect(said(el('00200062', 'CS', 'B'))?.side).toBeNull();
  });
});

describe('the patient', () => {
  /** Attributes of PS3.15 table E.1-1 that tell who somebody is or where, each with a word of its own. */
  const tags: readonly (readonly [tag: string, vr: string])[] = [
    ...['00100010', '00081048', '00080090', '00081050', '00081070', '00102297', '00101001', '00101060', '00400006'].map(
      (tag) => [tag, 'PN'] as const,
    ),
    ...['00100020', '00100021', '00101000', '00102160', '00080080', '00081010', '00081030', '0008103e', '00081040'].map(
      (tag) => [tag, 'LO'] as const,
    ),
    ...['00102000', '00102110', '00102292', '00102299', '00181000', '00181030', '00321060', '00380500'].map(
      (tag) => [tag, 'LO'] as const,
    ),
    ...['00080050', '00200010', '00102180', '00321032'].map((tag) => [tag, 'SH'] as const),
    ...['00101040', '00080081', '001021b0', '00104000', '00204000', '00324000', '00402400'].map(
      (tag) => [tag, 'LT'] as const,
    ),
    ...['00180015', '00185101', '00200060', '00200062', '00102201'].map((tag) => [tag, 'CS'] as const),
  ];
  const word = (index: number): string => `XQ${String(index).padStart(3, '0')}Z`;
  const birth = '19870605';

  it('is nowhere in the text that a dropped file brings, whatever its fields hold', () => {
    const written = tags.map(([tag, vr], index) => el(tag, vr, word(index)));
    const meaning = [word(900), word(901)].join(' ');
    const bytes = file(
      ...written,
      el('00080022', 'DA', '20260304'),
      el('00100030', 'DA', birth),
      el('00280030', 'DS', '0.14\\0.14'),
      el('00280a02', 'CS', 'FIDUCIAL'),
      el('00280a04', 'LO', word(902)),
      el('00082218', 'SQ', [code('SCT', '419176008', meaning)]),
      el('00540220', 'SQ', [[...code('SCT', '399352003', meaning)]]),
    );
    const found = saidInFile(bytes);
    expect(found).toEqual({ taken: '2026-03-04', scale: true, side: null, limb: 'fore', view: 'lateral' });
    const { tree, study } = inspect('hoof 1\n\nvisit 2026-03-05\n');
    const context = { today: '2026-11-29', caseName: 'fern', taken: [] };
    const picture = { name: `${word(903)}^${birth}.dcm`, path: null, said: found };
    const made = newFilms(tree, study.record, 12, [picture], context);
    expect(made.snippet).toContain('taken   2026-03-04');
    const all = JSON.stringify(made);
    expect(all).not.toMatch(/XQ\d{3}Z/i);
    expect(all).not.toMatch(/1987|0605|06-05/);
    // Each word is in the file, or the two lines above would prove nothing.
    const text = Buffer.from(bytes).toString('latin1');
    for (const index of [...tags.keys(), 900, 901, 902]) expect(text).toContain(word(index));
    expect(text).toContain(birth);
  });
});

describe('a file that is put into a case', () => {
  const bytes = file(el('00080022', 'DA', '20260304'));
  const read = (): Promise<Uint8Array> => Promise.resolve(bytes);

  it('is looked into where its name may be that of a DICOM file, and no other is read', async () => {
    for (const name of ['a.dcm', 'A.DICOM', 'IM00001'])
      expect(await saidBy(name, read)).toEqual({ ...nothing, taken: '2026-03-04' });
    for (const name of ['a.png', 'a.jpg', 'a.tif', '.png'])
      expect(await saidBy(name, () => Promise.reject(new Error('it was read')))).toBeNull();
  });

  it('that cannot be read says nothing: the film comes all the same', async () => {
    expect(await saidBy('a.dcm', () => Promise.reject(new Error('gone')))).toBeNull();
    expect(await saidBy('a.dcm', () => Promise.resolve(bytes.subarray(0, 140)))).toBeNull();
  });
});

describe('files that are none', () => {
  it('say nothing, and stop nothing', () => {
    const whole = file(el('00080022', 'DA', '20260304'));
    expect(saidInFile(new Uint8Array())).toBeNull();
    expect(saidInFile(new TextEncoder().encode('no picture at all'))).toBeNull();
    for (let length = 0; length < whole.length; length += 3) {
      const cut = saidInFile(whole.subarray(0, length));
      expect([null, '2026-03-04']).toContain(cut?.taken ?? null);
    }
  });
});
