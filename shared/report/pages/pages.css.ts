/** The stylesheet of the pages that are handed over: A4 and Letter first, then a screen, then a phone. */
export const pagesCss = `
:root { color-scheme: light; --page-ink: #1d1a16; --page-paper: #fffdf8; --page-faint: #5f584e; --page-rule: #c9c1b4; }
@page { margin: 12mm 13mm; }
@page across { size: landscape; margin: 12mm 13mm; }
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; }
body { margin: 0 auto; max-width: 52rem; padding: 1.5rem 1.25rem; background: var(--page-paper); color: var(--page-ink); font: 1rem/1.45 Georgia, 'Times New Roman', 'Noto Serif', serif; overflow-wrap: anywhere; }
.for-owner { font-size: 1.15rem; }
h1, h2, h3 { font-weight: 600; line-height: 1.2; margin: 1.1em 0 .35em; break-after: avoid; }
h1 { font-size: 1.8em; margin: 0; }
h2 { font-size: 1.15em; border-top: 1px solid var(--page-ink); padding-top: .35em; }
h3 { font-size: 1em; }
p { margin: .35em 0; }
ul { margin: .35em 0; padding-left: 1.2em; }
li { margin: .15em 0; }
header { border-bottom: 2px solid var(--page-ink); padding-bottom: .4em; }
.for { margin: 0; font-size: .85em; letter-spacing: .04em; color: var(--page-faint); }
.who, figcaption, .faint { color: var(--page-faint); font-size: .88em; margin: .2em 0; }
.alarms { border: 3px double var(--page-ink); padding: .3em .9em .5em; margin: .8em 0; }
.alarms h2 { border: 0; margin: .1em 0; padding: 0; }
.alarms p, .alarms li { font-weight: 600; }
.withheld { border-left: 4px solid var(--page-ink); padding-left: .7em; }
.cautions { font-size: .85em; }
.cautions h2 { font-size: 1em; }
.date { white-space: nowrap; }
figure { margin: .5em 0; break-inside: avoid; }
figure svg, figure img { display: block; max-width: 100%; height: auto; }
figure svg:not([width]) { width: 100%; }
small { font-size: max(.83em, 11px); }
.scrolls { overflow-x: auto; }
.scrolls svg { min-width: 49rem; }
.true-size svg { max-width: none; min-width: 0; }
table { width: 100%; border-collapse: collapse; font-size: .92em; margin: .4em 0; }
caption { text-align: left; font-style: italic; padding: .2em 0; }
thead th { text-align: left; font-weight: 600; border-bottom: 1px solid var(--page-ink); vertical-align: bottom; }
th, td { padding: .16em .6em .16em 0; vertical-align: baseline; text-align: left; overflow-wrap: break-word; }
.free { overflow-wrap: anywhere; }
tbody th { font-weight: 400; }
tbody tr { border-bottom: 1px solid var(--page-rule); break-inside: avoid; }
td { font-variant-numeric: tabular-nums; }
.big { font-size: 1.25em; font-weight: 600; }
.notes-room { border: 1px solid var(--page-rule); min-height: 36mm; margin: .4em 0; padding: .2em .5em; }
.plates { display: flex; flex-wrap: wrap; gap: 3mm; }
.plates figure { flex: 1 1 38mm; max-width: 100%; margin: .2em 0; }
.plates svg { width: 100%; max-height: 58mm; }
.plate svg { max-height: 88mm; width: 100%; }
.for-owner .course svg { max-height: 62mm; width: 100%; }
.month-row { display: flex; flex-wrap: wrap; gap: 3mm; }
.month-row figure { flex: 1 1 50mm; }
.foot { break-inside: avoid; border-top: 1px solid var(--page-ink); margin-top: .6em; }
.foot h2 { border: 0; margin: .2em 0; padding: 0; }
.marks { display: flex; flex-wrap: wrap; gap: .2em 1.6em; font-size: 1.1em; margin: .2em 0; padding: 0; list-style: none; }
.marks strong { font-size: 1.15em; }
.tight { font-size: .9em; }
.two-up { columns: 2; column-gap: 2.6em; }
.rest { break-before: page; }
.beside { break-inside: avoid; display: grid; grid-template-columns: 1fr 1fr; gap: 0 1.2rem; }
.beside > section { min-width: 0; }
.for-vet { font-size: .95rem; }
@media screen and (max-width: 40rem) {
  .beside { display: block; }
  body { padding: .8rem; }
  table { font-size: max(.85em, 11px); }
  .two-up { columns: 1; }
  .plates figure { flex-basis: 100%; }
  .wide { display: block; }
  .wide thead { display: none; }
  .wide tbody, .wide tr { display: block; }
  .wide th, .wide td { display: inline-block; padding-right: 1em; }
  .wide tbody th { display: block; font-weight: 600; }
}
@media print {
  body { max-width: none; padding: 0; background: #fff; font-size: 10.5pt; }
  .for-owner { font-size: 11.5pt; line-height: 1.28; }
  .for-owner .beside li, .for-owner .beside p { margin: .1em 0; }
  .for-vet { font-size: 8.3pt; line-height: 1.22; }
  .for-vet h2, .for-yard h2 { margin-top: .5em; }
  .for-vet .usual { white-space: nowrap; }
  .for-vet td, .for-vet th { padding-top: .08em; padding-bottom: .08em; }
  .for-yard { font-size: 9.6pt; line-height: 1.28; }
  h2 { margin-top: .7em; }
  .scrolls { overflow: visible; }
  .scrolls svg { min-width: 0; }
  .plates svg { max-height: 46mm; }
  .lies-across { page: across; }
}
`;
