import type { Inspection } from '../../findings/inspect.ts';
import { ownerPage } from './owner.ts';
import type { HandedCase, Reader } from './shell.ts';
import { drawnToday, vetPage } from './vet.ts';
import { yardPage } from './yard.ts';

export { readers, type HandedCase, type Reader } from './shell.ts';

const pages: Readonly<Record<Reader, (handed: HandedCase) => string>> = {
  owner: ownerPage,
  vet: vetPage,
  yard: yardPage,
};

/** The page of one case for one reader: HTML that needs nothing else. */
export function handedPage(reader: Reader, handed: HandedCase): string {
  return pages[reader](handed);
}

/** The pictures that a page shows, by their paths as written: only the vet's page shows any. */
export function picturesOfPage(reader: Reader, inspection: Inspection): readonly string[] {
  return reader === 'vet' ? drawnToday(inspection).map(({ picture }) => picture) : [];
}
