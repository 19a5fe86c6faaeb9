/** What was looked for and could not be read, so that nobody takes a gap for a finding of none. */
export interface NotRead {
  readonly cite: string;
  readonly doi?: string;
  /** Whom it is about, and what it may hold that is wanted here. */
  readonly holds: string;
  /** How far it could be read. */
  readonly read: string;
}

// prettier-ignore
export const notRead: readonly NotRead[] = [
  { cite: 'Wacker and others, Front Vet Sci, December 2024', holds: '46 generally sound donkeys, fore feet: founder distance, sole, wall to bone', read: 'the abstract, without its figures' },
  { cite: 'Nocera and others, Open Vet J 2020;10:354-362', doi: '10.4314/ovj.v10i4.1', holds: '56 fore feet of 28 Amiata donkeys, 18 measures', read: 'the abstract: left and right are alike' },
  { cite: 'Amiata jennies, Front Vet Sci 2020;7', doi: '10.3389/fvets.2020.601665', holds: '16 fore feet, 7 healthy, 4 mildly and 5 severely laminitic: bone and palmar angle, both rotations', read: 'the abstract: which of them differ, not by how much' },
  { cite: 'Animals 2025;15:22', doi: '10.3390/ani15010022', holds: '41 generally sound donkeys, hind feet', read: 'the summary: steeper than horses’' },
  { cite: 'Collins and others, Equine Vet J 2011;43', doi: '10.1111/j.2042-3306.2010.00312.x', holds: 'donkeys with and without laminitis, measure by measure', read: 'what others quote' },
  { cite: 'Thieme, Ehrle and Lischer, Vet J 2015;206:332-337, and the thesis behind it', doi: '10.1016/j.tvjl.2015.10.005', holds: '81 ponies: how each length follows height at the withers, with coefficients', read: 'the abstracts: most lengths follow height strongly, angles hardly' },
  { cite: 'Eustace and Cripps, and Cripps and Eustace, Equine Vet J 1999;31', holds: 'founder distance in sound and foundered horses and ponies, with its spread', read: 'none of the tables; the figures used here are from memory' },
  { cite: 'Kummer and others, Vet J 2006', holds: '40 Warmbloods before and after a trim: sole, palmar angle and others, with their spread', read: 'the abstract: which measures a trim changes most' },
  { cite: 'Grundmann 2012 and Drumm 2015, theses', holds: '50 fore feet of grown horses: usual values, and film against MRI', read: 'the abstracts: the two differ by less than 2 mm' },
  { cite: 'Vilsmeier, thesis, Leipzig 2002', holds: 'how fast the horn of donkeys grows', read: 'the introduction' },
];
