import type { SourceName } from './sources.ts';

/**
 * The works behind the sources, as a list of references wants them. Only what is known stands here: a name, title, volume, page or
 * DOI that nobody has read is left out, so an entry may be short of what a journal asks for. `others` as the last author: there are
 * more of them.
 */
export interface Work {
  /** In a list of references the name of the entry. */
  readonly key: string;
  readonly kind: 'article' | 'book' | 'phdthesis' | 'misc';
  /** As written in a list: `Cripps, P. J.`, or the family name alone. */
  readonly authors?: readonly string[];
  readonly title?: string;
  /** In its usual short form. */
  readonly journal?: string;
  readonly year?: number;
  readonly volume?: string;
  readonly number?: string;
  /** From, or from and to. */
  readonly pages?: readonly [from: number, to?: number];
  readonly edition?: string;
  readonly school?: string;
  readonly doi?: string;
  /** What kind of thing it is, where that is not plain; what is in doubt. */
  readonly note?: string;
  /** Nobody here has seen the work or its record: to be looked up before it is printed. */
  readonly fromMemory?: true;
}

const article = (key: string, rest: Omit<Work, 'key' | 'kind'>): readonly Work[] => [{ key, kind: 'article', ...rest }];
const misc = (key: string, rest: Omit<Work, 'key' | 'kind'>): readonly Work[] => [{ key, kind: 'misc', ...rest }];
/** What everybody says and nobody can be cited for. */
const noWork: readonly Work[] = [];

const equineVetJ = 'Equine Vet J';

/** Of each source its works; none where it is no work that can be cited. */
// prettier-ignore
export const works: Readonly<Record<SourceName, readonly Work[]>> = {
  textbook: [{ key: 'ecmsr2', kind: 'book', title: 'Equine Clinical Medicine, Surgery and Reproduction', edition: '2nd', pages: [88] }],
  clements: article('clements2019', { authors: ['Clements, P. E.', 'Handel, I.', 'McKane, S. A.', 'Coomer, R. P.'], title: 'An investigation into the association between plantar distal phalanx angle and hindlimb lameness in a UK population of horses', journal: 'Equine Vet Educ', year: 2019, doi: '10.1111/eve.13186' }),
  stick: article('stick1982', { authors: ['Stick, J. A.', 'Jann, H. W.', 'Scott, E. A.', 'Robinson, N. E.'], journal: 'J Am Vet Med Assoc', year: 1982, volume: '180', number: '3', pages: [251, 253] }),
  stickQuotes: noWork,
  hunt: article('hunt1993', { authors: ['Hunt, R. J.'], title: 'A retrospective evaluation of laminitis in horses', journal: equineVetJ, year: 1993, volume: '25', pages: [61, 64], doi: '10.1111/j.2042-3306.1993.tb02903.x' }),
  cripps: article('cripps1999', { authors: ['Cripps, P. J.', 'Eustace, R. A.'], title: 'Radiological measurements from the feet of normal horses with relevance to laminitis', journal: equineVetJ, year: 1999, volume: '31', number: '5', pages: [427, 432] }),
  eustace: article('eustace1999', { authors: ['Eustace, R. A.', 'Cripps, P. J.'], journal: equineVetJ, year: 1999, volume: '31', pages: [433, 442], doi: '10.1111/j.2042-3306.1999.tb03845.x' }),
  careTextbook: [{ key: 'vch', kind: 'book', title: 'The Veterinary Care of the Horse', pages: [261] }],
  sherlock: article('sherlock2013', { authors: ['Sherlock, C.', 'Parks, A.'], journal: 'Equine Vet Educ', year: 2013 }),
  mullard: article('mullard2020', { authors: ['Mullard', 'others'], title: 'Radiographic assessment of the ratio of the hoof wall distal phalanx distance to palmar length of the distal phalanx in 415 front feet of 279 horses', journal: 'Equine Vet Educ', note: 'About 2020', fromMemory: true }),
  skelton: article('skelton2025', { authors: ['Skelton, G.', 'Acutt, E.', 'Stefanovski, D.', 'van Eps, A.'], title: 'Evaluation of digital radiographic measurements for the diagnosis of acute laminitis', journal: equineVetJ, year: 2025, doi: '10.1111/evj.14436' }),
  floyd: misc('floyd2011', { authors: ['Floyd, A. E.'], year: 2011, note: 'dvm360, part 1 (an expert’s experience)' }),
  floydGrades: misc('floyd2011grades', { authors: ['Floyd, A. E.'], year: 2011, note: 'dvm360, parts 1 and 2 (an expert’s experience)' }),
  redden: misc('redden2003', { authors: ['Redden'], year: 2003, note: 'AAEP' }),
  reddenTrade: noWork,
  reddenParks: noWork,
  linford: article('linford1993', { authors: ['Linford, R. L.', 'O’Brien, T. R.', 'Trout, D. R.'], journal: 'Am J Vet Res', year: 1993, volume: '54', pages: [38, 51], fromMemory: true }),
  pezzanite: article('pezzanite2019', { authors: ['Pezzanite, L. M.', 'others'], journal: 'Vet Comp Orthop Traumatol', year: 2019, volume: '32', number: 'S3', doi: '10.1055/s-0039-1692234', note: 'Abstract' }),
  darehShori: article('darehshori', { title: 'Trimming of front hooves of Dareh-Shori horses', journal: 'Iran J Vet Surg', note: 'Article 79374' }),
  wikivet: misc('wikivet', { title: 'WikiVet', note: 'A teaching text' }),
  parks: noWork,
  taylor: article('taylor2014', { authors: ['Taylor, D.', 'others'], journal: 'J Equine Vet Sci', year: 2014, volume: '34', pages: [556, 564] }),
  dyson: article('dyson2011', { authors: ['Dyson, S. J.', 'others'], journal: 'Vet J', year: 2011, volume: '190', pages: [364, 371], doi: '10.1016/j.tvjl.2010.11.015' }),
  collins: article('collins2011', { authors: ['Collins, S. N.', 'Dyson, S. J.', 'Murray, R. C.', 'Burden, F.', 'Trawford, A.'], journal: equineVetJ, year: 2011, volume: '43', doi: '10.1111/j.2042-3306.2010.00312.x' }),
  thieme: article('thieme2015', { authors: ['Thieme, K.', 'Ehrle, A.', 'Lischer, C.'], title: 'Radiographic measurements of the hooves of normal ponies', journal: 'Vet J', year: 2015, volume: '206', number: '3', pages: [332, 337], doi: '10.1016/j.tvjl.2015.10.005' }),
  thiemeThesis: [{ key: 'thiemethesis', kind: 'phdthesis', authors: ['Thieme, K.'], school: 'Freie Universität Berlin' }],
  crevier: article('crevier2001', { authors: ['Crevier-Denoix, N.', 'others'], journal: 'Equine Vet J Suppl', year: 2001, volume: '33', pages: [74, 78], fromMemory: true }),
  mansoura: misc('vetmansoura', { title: 'Laminitis in donkeys', note: 'Radiology archive of vetmansoura.com (a teaching text)' }),
  rosanowski: article('rosanowski2022', { authors: ['Rosanowski', 'others'], journal: equineVetJ, year: 2022 }),
  hassanpour: article('hassanpour2012', { authors: ['Hassanpour', 'Dehghani'], journal: 'Res Opin Anim Vet Sci', year: 2012, volume: '2', pages: [381, 383] }),
  hindFeet: misc('hindfeet', { title: 'Shape of the lateral aspect of the hoof capsule in hindlimbs', note: '225 horses (abstract)' }),
  icelandic: article('icelandic2020', { title: 'Hoof conformation in Icelandic competition horses', journal: 'Vet J', year: 2020, doi: '10.1016/j.tvjl.2020.105462' }),
  soleRule: noWork,
  kolstrung: article('kolstrung2012', { authors: ['Kolstrung', 'others'], journal: 'Med Weter', year: 2012, volume: '68', pages: [426, 429] }),
  josseck: article('josseck1995', { authors: ['Josseck', 'others'], journal: equineVetJ, year: 1995, volume: '27', pages: [175, 182], doi: '10.1111/j.2042-3306.1995.tb03060.x' }),
  reilly: article('reilly1998', { authors: ['Reilly', 'others'], journal: 'Equine Vet J Suppl', year: 1998, volume: '26', pages: [51, 57], doi: '10.1111/j.2042-3306.1998.tb05122.x' }),
  butlerHintz: article('butler1977', { authors: ['Butler', 'Hintz'], journal: 'J Anim Sci', year: 1977, volume: '44', pages: [257, 261] }),
  butler: [{ key: 'butler1985', kind: 'book', authors: ['Butler'], title: 'Principles of Horseshoeing II', year: 1985 }],
  growthTextbook: [{ key: 'vchgrowth', kind: 'book', title: 'The Veterinary Care of the Horse', pages: [196] }],
  knowles: article('knowles2022', { authors: ['Knowles', 'others'], journal: equineVetJ, year: 2022, doi: '10.1111/evj.13572' }),
  grady: noWork,
  trade: noWork,
  trends: [
    ...misc('theil1950', { authors: ['Theil'], year: 1950, fromMemory: true }),
    ...misc('sen1968', { authors: ['Sen'], year: 1968, fromMemory: true }),
    ...misc('mann1945', { authors: ['Mann'], year: 1945, fromMemory: true }),
    ...misc('kendall1975', { authors: ['Kendall'], year: 1975, fromMemory: true }),
  ],
  shroutFleiss: article('shrout1979', { authors: ['Shrout, P. E.', 'Fleiss, J. L.'], title: 'Intraclass correlations: uses in assessing rater reliability', journal: 'Psychol Bull', year: 1979, volume: '86', pages: [420, 428], fromMemory: true }),
  mcgrawWong: article('mcgraw1996', { authors: ['McGraw, K. O.', 'Wong, S. P.'], title: 'Forming inferences about some intraclass correlation coefficients', journal: 'Psychol Methods', year: 1996, volume: '1', pages: [30, 46], fromMemory: true }),
  blandAltmanError: article('bland1996', { authors: ['Bland, J. M.', 'Altman, D. G.'], title: 'Measurement error', journal: 'BMJ', year: 1996, volume: '313', pages: [744], fromMemory: true }),
};
