import { contentElements } from './content.ts';
import { codes, ownScheme } from './codes.ts';
import { animalName, coded, references, sequence, text, type Elements } from './elements.ts';
import { dateOf, filmReport, speciesOf, type FilmReportInput } from './film-report.ts';
import { program } from './uids.ts';

/** Comprehensive SR Storage, PS3.4 B.5. */
export const reportClass = '1.2.840.10008.5.1.4.1.1.88.33';
const explicitLittleEndian = '1.2.840.10008.1.2.1';

/** A report as data: the File Meta Information (PS3.10 7.1) without its length, and the data set. */
export interface ReportDataSet {
  readonly meta: Elements;
  readonly elements: Elements;
}

export interface ReportOnDay extends FilmReportInput {
  /** The day that it is written for, YYYY-MM-DD. */
  readonly on: string;
}

/**
 * The report of a film as a Comprehensive SR (PS3.3 A.35.3). Null where nothing is measured on the film. Two times the same gives the
 * same: its day is given, and its UIDs are made of what it says.
 */
export function reportDataSet(input: ReportOnDay): ReportDataSet | null {
  const content = filmReport(input);
  if (!content) return null;
  const { film, archived, names, uids } = input;
  const { foot, view } = film.film;
  const day = dateOf(film);
  const kept = names ? archived?.kept : undefined;
  const said: Elements = {
    '00080005': text('CS', 'ISO_IR 192'),
    '00080016': text('UI', reportClass),
    '00080020': text('DA', kept?.StudyDate ?? plainDate(day)),
    '00080023': text('DA', plainDate(input.on)),
    '00080030': text('TM', kept?.StudyTime ?? ''),
    '00080033': text('TM', '000000'),
    '00080050': text('SH', kept?.AccessionNumber ?? ''),
    '00080060': text('CS', 'SR'),
    '00080070': text('LO', program.name),
    '00080090': text('PN', ''),
    '0008103E': text('LO', `${program.name}: ${foot} ${view}`),
    '00080110': sequence({
      '00080102': text('SH', ownScheme),
      '00080115': text('ST', 'Measures of the equine foot, by their names in Ungula'),
      '00080116': text('ST', program.name),
    }),
    '00081090': text('LO', program.name),
    '00081111': sequence(),
    ...patientElements(input),
    '00181020': text('LO', program.version),
    '0020000D': text('UI', names && archived ? archived.study : uids.of(['study', day])),
    '0020000E': text('UI', uids.of(['series', foot, view, day, archived?.instance ?? null])),
    '00200010': text('SH', kept?.StudyID ?? ''),
    '00200011': text('IS', '1'),
    '00200013': text('IS', '1'),
    ...(archived && {
      '0040A385': sequence({
        '00081115': sequence({
          '00081199': sequence(withoutFrames(references(archived))),
          '0020000E': text('UI', archived.series),
        }),
        '0020000D': text('UI', archived.study),
      }),
    }),
    '0040A372': sequence(),
    '0040A491': text('CS', 'COMPLETE'),
    '0040A493': text('CS', 'UNVERIFIED'),
    ...contentElements(content),
  };
  const instance = text('UI', uids.of(['report', JSON.stringify(said)]));
  return {
    meta: {
      '00020002': text('UI', reportClass),
      '00020003': instance,
      '00020010': text('UI', explicitLittleEndian),
      '00020012': text('UI', uids.program),
      '00020013': text('SH', `UNGULA ${program.version}`),
    },
    elements: { ...said, '00080018': instance },
  };
}

/**
 * The patient: the animal's name and species and nothing else of the case. Its number is the film's own where names are asked for,
 * else a stand-in: the code of the case, or digits made of what the case calls the animal.
 */
function patientElements({ study, archived, names, uids }: ReportOnDay): Elements {
  const animal = study.record.animal?.is;
  const kept = names ? archived?.kept : undefined;
  const species = speciesOf(study);
  const stand = `UNGULA-${animal?.code ?? uids.of(['patient']).slice(-12)}`;
  return {
    '00100010': animalName(animal?.name ?? ''),
    '00100020': text('LO', kept?.PatientID ?? stand),
    ...(kept?.PatientID && kept.IssuerOfPatientID && { '00100021': text('LO', kept.IssuerOfPatientID) }),
    '00100030': text('DA', ''),
    '00100040': text('CS', ''),
    ...(species ? { '00102202': coded(species) } : { '00102201': text('LO', codes.equid.meaning) }),
    '00102203': text('CS', ''),
    '00102292': text('LO', ''),
    '00102293': sequence(),
    '00102294': sequence(),
    '00102297': text('PN', ''),
    '00102299': text('LO', ''),
  };
}

const withoutFrames = ({ '00081150': sopClass, '00081155': instance }: Elements): Elements => ({
  ...(sopClass && { '00081150': sopClass }),
  ...(instance && { '00081155': instance }),
});

const plainDate = (day: string | null): string => day?.replaceAll('-', '') ?? '';
