/** How strong the ground under a value is; shown wherever the value is. */
export type Strength = 'read' | 'quoted' | 'memory' | 'practice';

export const strengthWords: Readonly<Record<Strength, string>> = {
  read: '',
  quoted: 'as quoted by others',
  memory: 'from memory',
  practice: 'common practice, no source',
};

export interface Source {
  /** Authors, title or journal, year. */
  readonly cite: string;
  readonly doi?: string;
}

export const sources = {
  textbook: { cite: 'Equine Clinical Medicine, Surgery and Reproduction, 2nd ed., p. 88' },
  clements: { cite: 'Clements and others, Equine Vet Educ 2019', doi: '10.1111/eve.13186' },
  stick: { cite: 'Stick and others, J Am Vet Med Assoc 1982;180:251-253' },
  stickQuotes: { cite: 'quotations of Stick and others 1982' },
  hunt: { cite: 'Hunt, Equine Vet J 1993;25:61-64', doi: '10.1111/j.2042-3306.1993.tb02903.x' },
  cripps: { cite: 'Cripps and Eustace, Equine Vet J 1999;31:427-432' },
  eustace: { cite: 'Eustace and Cripps, Equine Vet J 1999;31:433-442', doi: '10.1111/j.2042-3306.1999.tb03845.x' },
  careTextbook: { cite: 'The Veterinary Care of the Horse, p. 261' },
  sherlock: { cite: 'Sherlock and Parks, Equine Vet Educ 2013' },
  mullard: { cite: 'Hoof wall to distal phalanx ratio in 415 front feet of 279 horses, Equine Vet Educ (about 2020)' },
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
  darehShori: { cite: 'Trimming of front hooves of Dareh-Shori horses, Iran J Vet Surg' },
  wikivet: { cite: 'WikiVet (a teaching text)' },
  parks: { cite: 'Redden; Parks and O’Grady; Sherlock and Parks' },
  taylor: { cite: 'Taylor and others, J Equine Vet Sci 2014;34:556-564' },
  dyson: { cite: 'Dyson and others 2011' },
  collins: { cite: 'Collins and others, Equine Vet J 2011;43', doi: '10.1111/j.2042-3306.2010.00312.x' },
  thieme: { cite: 'Thieme, Ehrle and Lischer, Vet J 2015;206:332-337', doi: '10.1016/j.tvjl.2015.10.005' },
  thiemeThesis: { cite: 'Thieme, doctoral thesis, Freie Universität Berlin' },
  crevier: { cite: 'Crevier-Denoix and others, Equine Vet J Suppl 2001;33:74-78' },
  grady: { cite: 'O’Grady; Duckett' },
  trade: { cite: 'the trade' },
} as const satisfies Readonly<Record<string, Source>>;

export type SourceName = keyof typeof sources;

/** As it stands in a message: `Hunt, Equine Vet J 1993;25:61-64` or `…, from memory`. */
export function citation(name: SourceName, strength: Strength): string {
  if (strength === 'practice') return strengthWords.practice;
  const words = strengthWords[strength];
  return words ? `${sources[name].cite}, ${words}` : sources[name].cite;
}
