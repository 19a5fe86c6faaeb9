import type { FootToday } from '../../views/foot-today.ts';
import type { PageOf } from './shell.ts';

export function monthsPart(_page: PageOf, _foot: FootToday | null): string {
  return '';
}
