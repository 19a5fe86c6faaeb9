import type { Inspection } from '../../findings/inspect.ts';
import { ownerPage } from './owner.ts';
import type { HandedCase, PageReader } from './shell.ts';
import { drawnToday, vetPage } from './vet.ts';
import { yardPage } from './yard.ts';

export { pageReaders, type HandedCase, type PageReader } from './shell.ts';

const pages: Readonly<Record<PageReader, (handed: HandedCase) => string>> = {
  owner: ownerPage,
  vet: vetPage,
  yard: yardPage,
};

/** The page of one case for one reader: HTML that needs nothing else. */
export function handedPage(reader: PageReader, handed: HandedCase): string {
  return pages[reader](handed);
}

/** The pictures that a page shows, by their paths as written: only the vet's page shows any. */
export function picturesOfPage(reader: PageReader, inspection: Inspection): readonly string[] {
  return reader === 'vet' ? drawnToday(inspection).map(({ picture }) => picture) : [];
}
