import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';

/** How strong the ground under a value is; shown wherever the value is. */
export type Strength = 'read' | 'quoted' | 'memory' | 'practice';

export const strengthWords: Readonly<Record<Strength, string>> = spoken({
  read: '',
  quoted: 'as quoted by others',
  memory: 'from memory',
  practice: 'common practice, no source',
});

export interface Source {
  /** Authors, title or journal, year. */
  readonly cite: string;
  readonly doi?: string;
  /** How it is named in passing, in place of its authors; empty where a sentence is better off without it. */
  readonly short?: string;
}

export const sources = {
  textbook: { cite: 'Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88', short: 'a textbook' },
  clements: { cite: 'Clements and others, Equine Vet Educ 2019', doi: '10.1111/eve.13186' },
  stick: { cite: 'Stick and others, J Am Vet Med Assoc 1982;180:251-253' },
  stickQuotes: { cite: 'quotations of Stick and others 1982' },
  hunt: { cite: 'Hunt, Equine Vet J 1993;25:61-64', doi: '10.1111/j.2042-3306.1993.tb02903.x' },
  cripps: { cite: 'Cripps and Eustace, Equine Vet J 1999;31:427-432' },
  eustace: { cite: 'Eustace and Cripps, Equine Vet J 1999;31:433-442', doi: '10.1111/j.2042-3306.1999.tb03845.x' },
  careTextbook: { cite: 'The Veterinary Care of the Horse, p. 261', short: 'a textbook' },
  sherlock: { cite: 'Sherlock and Parks, Equine Vet Educ 2013' },
  // The names of the authors are from memory.
  mullard: {
    cite: 'Mullard and others, hoof wall to distal phalanx ratio in 415 front feet, Equine Vet Educ (about 2020)',
  },
  skelton: { cite: 'Skelton and others, Equine Vet J 2025', doi: '10.1111/evj.14436' },
  floyd: { cite: 'Floyd, dvm360 2011, part 1 (an expert’s experience)' },
  floydGrades: { cite: 'Floyd, dvm360 2011, parts 1 and 2 (an expert’s experience)' },
  redden: { cite: 'Redden, AAEP 2003' },
  reddenTrade: { cite: 'Redden; the trade' },
  reddenParks: { cite: 'Redden; Parks and O’Grady' },
  linford: { cite: 'Linford, O’Brien and Trout, Am J Vet Res 1993;54:38-51' },
  pezzanite: {
    cite: 'Pezzanite and others, Vet Comp Orthop Traumatol 2019;32 S3 (abstract)',
    doi: '10.1055/s-0039-1692234',
  },
  darehShori: { cite: 'Trimming of front hooves of Dareh-Shori horses, Iran J Vet Surg, article 79374' },
  wikivet: { cite: 'WikiVet (a teaching text)' },
  parks: { cite: 'Redden; Parks and O’Grady; Sherlock and Parks', short: '' },
  taylor: { cite: 'Taylor and others, J Equine Vet Sci 2014;34:556-564' },
  dyson: { cite: 'Dyson and others, Vet J 2011;190:364-371', doi: '10.1016/j.tvjl.2010.11.015' },
  collins: { cite: 'Collins and others, Equine Vet J 2011;43', doi: '10.1111/j.2042-3306.2010.00312.x' },
  thieme: { cite: 'Thieme, Ehrle and Lischer, Vet J 2015;206:332-337', doi: '10.1016/j.tvjl.2015.10.005' },
  thiemeThesis: { cite: 'Thieme, doctoral thesis, Freie Universität Berlin' },
  crevier: { cite: 'Crevier-Denoix and others, Equine Vet J Suppl 2001;33:74-78' },
  mansoura: { cite: 'Laminitis in donkeys, radiology archive of vetmansoura.com (a teaching text)' },
  rosanowski: { cite: 'Rosanowski and others, Equine Vet J 2022 (61 working donkeys)' },
  hassanpour: { cite: 'Hassanpour and Dehghani, Res Opin Anim Vet Sci 2012;2:381-383' },
  hindFeet: { cite: 'Shape of the lateral aspect of the hoof capsule in hindlimbs, 225 horses (abstract)' },
  icelandic: {
    cite: 'Hoof conformation in Icelandic competition horses, Vet J 2020',
    doi: '10.1016/j.tvjl.2020.105462',
  },
  soleRule: { cite: 'widely taught' },
  kolstrung: { cite: 'Kolstrung and others, Med Weter 2012;68:426-429' },
  josseck: {
    cite: 'Josseck and others, Equine Vet J 1995;27:175-182',
    doi: '10.1111/j.2042-3306.1995.tb03060.x',
  },
  reilly: {
    cite: 'Reilly and others, Equine Vet J Suppl 1998;26:51-57',
    doi: '10.1111/j.2042-3306.1998.tb05122.x',
  },
  butlerHintz: { cite: 'Butler and Hintz, J Anim Sci 1977;44:257-261' },
  butler: { cite: 'Butler, Principles of Horseshoeing II, 1985' },
  growthTextbook: { cite: 'The Veterinary Care of the Horse, p. 196' },
  knowles: {
    cite: 'Knowles and others, Equine Vet J 2022',
    doi: '10.1111/evj.13572',
  },
  grady: { cite: 'O’Grady; Duckett' },
  trade: { cite: 'the trade' },
  trends: { cite: 'Theil 1950; Sen 1968; Mann 1945; Kendall 1975' },
  shroutFleiss: { cite: 'Shrout and Fleiss, Psychol Bull 1979;86:420-428' },
  mcgrawWong: { cite: 'McGraw and Wong, Psychol Methods 1996;1:30-46' },
  blandAltmanError: { cite: 'Bland and Altman, BMJ 1996;313:744' },
} as const satisfies Readonly<Record<string, Source>>;

export type SourceName = keyof typeof sources;

/** As it stands in a message: `Hunt, Equine Vet J 1993;25:61-64` or `…, from memory`. */
export function citation(name: SourceName, strength: Strength): string {
  if (strength === 'practice') return strengthWords.practice;
  const words = strengthWords[strength];
  return words ? `${sources[name].cite}, ${words}` : sources[name].cite;
}

/** As it is named in passing, in a sentence that people act on: its authors, and how strong it is. The title stands in hover and data. */
export function namedShort(name: SourceName, strength: Strength): string {
  const { cite, short }: Source = sources[name];
  if (strength === 'practice') return strengthWords.practice;
  const [authors = cite] = cite.split(/,|: /);
  const who = short === 'a textbook' ? t('a textbook') : (short ?? authors);
  return [who, who === '' ? '' : strengthWords[strength]].filter((part) => part !== '').join(', ');
}
