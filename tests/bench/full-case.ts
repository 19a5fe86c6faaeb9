import { readFileSync } from 'node:fs';

const juniper = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const head = juniper.slice(0, juniper.indexOf('visit 2026-03-04'));
const visit = juniper
  .slice(juniper.indexOf('visit 2026-03-04'), juniper.indexOf('visit 2026-04-01'))
  .replace(/^visit .*\n/, '')
  .replace(/ {4}taken .*\n/, '');

/** A case of `visits` weekly visits, each with a whole film of 25 landmarks, a tape, a plan and a trim; no two films alike. */
export function fullCase(visits: number): string {
  const parts = [head];
  for (let i = 0; i < visits; i++) {
    const date = new Date(Date.UTC(2000, 0, 1 + 7 * i)).toISOString().slice(0, 10);
    const film = visit.replace(/@ +([\d.]+)/g, (_all, x: string) => `@ ${(Number(x) + (i % 7) * 0.5).toFixed(1)}`);
    parts.push(`visit ${date} "visit ${i}"\n${film}`);
  }
  return parts.join('');
}
