import { spoken } from '../../language/rows.ts';
import type { FootName } from '../../notation/choices.ts';
import type { View } from '../../notation/landmarks.ts';
import type { MeasureUnit } from '../../measures/unit.ts';

/** A coded entry, PS3.3 8. `SCT` is SNOMED CT, `DCM` DICOM's own, `UCUM` units, `99UNGULA` ours. */
export interface Code {
  readonly value: string;
  readonly scheme: 'DCM' | 'SCT' | 'UCUM' | 'UMLS' | 'RFC5646' | '99UNGULA';
  readonly meaning: string;
}

export const ownScheme = '99UNGULA';

const dcm = (value: string, meaning: string): Code => ({ value, scheme: 'DCM', meaning });
const sct = (value: string, meaning: string): Code => ({ value, scheme: 'SCT', meaning });

/**
 * The codes of the standard (PS3.16) that a report uses, with its meanings. Where they come from is checked against a copy of its
 * context groups: `tests/host/structured-report.ts`.
 */
export const codes = {
  report: dcm('126000', 'Imaging Measurement Report'),
  language: dcm('121049', 'Language of Content Item and Descendants'),
  observerType: dcm('121005', 'Observer Type'),
  device: dcm('121007', 'Device'),
  deviceUid: dcm('121012', 'Device Observer UID'),
  deviceName: dcm('121013', 'Device Observer Name'),
  deviceManufacturer: dcm('121014', 'Device Observer Manufacturer'),
  deviceModel: dcm('121015', 'Device Observer Model Name'),
  person: dcm('121006', 'Person'),
  personName: dcm('121008', 'Person Observer Name'),
  subjectClass: dcm('121024', 'Subject Class'),
  patient: dcm('121025', 'Patient'),
  subjectSpecies: dcm('121034', 'Subject Species'),
  procedure: dcm('121058', 'Procedure reported'),
  imaging: sct('363679005', 'Imaging procedure'),
  imageLibrary: dcm('111028', 'Image Library'),
  imageGroup: dcm('126200', 'Image Library Group'),
  measurements: dcm('126010', 'Imaging Measurements'),
  group: dcm('125007', 'Measurement Group'),
  tracking: dcm('112039', 'Tracking Identifier'),
  trackingUid: dcm('112040', 'Tracking Unique Identifier'),
  algorithm: dcm('111001', 'Algorithm Name'),
  algorithmVersion: dcm('111003', 'Algorithm Version'),
  algorithmParameters: dcm('111002', 'Algorithm Parameters'),
  findingSite: sct('363698007', 'Finding Site'),
  laterality: sct('272741003', 'Laterality'),
  method: sct('370129005', 'Measurement Method'),
  derivation: dcm('121401', 'Derivation'),
  standardDeviation: sct('386136009', 'Standard Deviation'),
  uncertainty: sct('371884006', '+/-, range of measurement uncertainty'),
  rangeLow: sct('385524004', 'Normal Range Lower Limit'),
  rangeHigh: sct('371933006', 'Normal Range Upper Limit'),
  rangeWords: dcm('121407', 'Normal Range description'),
  rangeAuthority: dcm('121408', 'Normal Range Authority'),
  equation: dcm('121420', 'Equation'),
  source: dcm('121112', 'Source of Measurement'),
  comment: dcm('121106', 'Comment'),
  notAttempted: dcm('114007', 'Measurement not attempted'),
  left: sct('7771000', 'Left'),
  right: sct('24028007', 'Right'),
  forefoot: sct('419176008', 'Forefoot'),
  hindfoot: sct('416804009', 'Hindfoot'),
  /** In CID 7482, the anatomy that is imaged of animals, the pedal bone has a code of UMLS. */
  pedalBone: { value: 'C3669027', scheme: 'UMLS', meaning: 'Distal phalanx' },
  horse: sct('35354009', 'Equus caballus (domestic horse)'),
  /** Of a donkey, a mule or a hinny: CID 7454 has the genus alone. */
  equid: sct('388445009', 'Equus'),
} as const satisfies Readonly<Record<string, Code>>;

export const unitCodes: Readonly<Record<MeasureUnit, Code>> = {
  deg: { value: 'deg', scheme: 'UCUM', meaning: 'Degree' },
  mm: { value: 'mm', scheme: 'UCUM', meaning: 'millimeter' },
  '%': { value: '%', scheme: 'UCUM', meaning: 'Percent' },
  '1': { value: '1', scheme: 'UCUM', meaning: 'no units' },
};

export const siteOf: Readonly<Record<FootName, { readonly foot: Code; readonly side: Code }>> = {
  LF: { foot: codes.forefoot, side: codes.left },
  RF: { foot: codes.forefoot, side: codes.right },
  LH: { foot: codes.hindfoot, side: codes.left },
  RH: { foot: codes.hindfoot, side: codes.right },
};

/** Concepts of ours beside the measures, whose codes are their names; 64 characters at most. */
const ownWords = spoken({
  'scale-from': 'what the scale of the film rests on',
  'scale-marker': 'scale from a marker of known length',
  'scale-number': 'scale as a number in the case',
  'scale-file': 'scale as the film’s own file states it for the foot',
  'scale-detector': 'scale at the detector: lengths may be too long',
  'scale-bone': 'scale from the bone, as on other films of this foot',
  'scale-bone-pair': 'scale from the bone, as on films of the other foot',
  'scale-none': 'no scale: no lengths',
  view: 'from where the film was taken',
  lateral: 'from the side',
  front: 'from in front',
  solar: 'from below',
  placing: 'how the landmarks were placed',
  'by-a-person': 'placed by a person',
  followed: 'followed from the film before, each confirmed by a person',
  'some-followed': 'placed by a person, some followed from the film before',
  'shorter-axis': 'by a shorter axis, as a landmark is missing',
});
type OwnName = keyof typeof ownWords;

export const own = (name: OwnName): Code => ({ value: name, scheme: ownScheme, meaning: ownWords[name] });
export const viewCode = (view: View): Code => own(view);
export const ownCodes = (): Code[] => (Object.keys(ownWords) as OwnName[]).map(own);

/** The code of a measure is its name, as it stands in a case file, in JSON and in CSV. Neither SNOMED CT nor DICOM has any of them. */
export const measureCode = ({ name, words }: { readonly name: string; readonly words: string }): Code => ({
  value: name,
  scheme: ownScheme,
  meaning: words,
});
