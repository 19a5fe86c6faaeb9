/** The report's own stylesheet: a printed page first, a screen second. */
export const pageCss = `
:root { color-scheme: light; --page-ink: #1d1a16; --page-paper: #fffdf8; --page-faint: #6b645a; --page-rule: #c9c1b4; }
@page { margin: 16mm; }
* { box-sizing: border-box; }
body { margin: 0 auto; max-width: 60rem; padding: 2rem 1.5rem; background: var(--page-paper); color: var(--page-ink); font: 1rem/1.5 Georgia, 'Times New Roman', serif; }
h1, h2, h3, h4 { font-weight: 500; line-height: 1.25; margin: 1.6em 0 .4em; }
h1 { font-size: 1.9rem; margin-top: 0; }
h2 { font-size: 1.5rem; border-top: 2px solid var(--page-ink); padding-top: .6em; }
h3 { font-size: 1.15rem; font-style: italic; }
h4 { font-size: 1rem; }
.who, figcaption, .source, small { color: var(--page-faint); }
.cautions { list-style: none; margin: 1em 0; padding: .7em 1em; border: 1px solid var(--page-rule); font-size: .92rem; }
figure { margin: .6em 0; }
figure svg, figure img { display: block; width: 100%; height: auto; }
figcaption { font-size: .85rem; font-style: italic; }
.laid { font-weight: 500; color: var(--page-ink); }
table { width: 100%; border-collapse: collapse; font-size: .88rem; margin: .6em 0 1.2em; }
thead th { text-align: left; font-weight: 500; font-style: italic; border-bottom: 1px solid var(--page-ink); }
th, td { padding: .22em .7em .22em 0; vertical-align: baseline; text-align: left; }
tbody th { font-weight: 400; }
tbody tr { border-bottom: 1px solid var(--page-rule); }
.value, .usual { white-space: nowrap; }
.value { font-variant-numeric: tabular-nums; }
.source { font-size: .92em; }
.visits dt { font-style: italic; margin-top: .6em; }
.visits dd { margin: 0 0 0 1em; }
.visits ul { margin: .2em 0; padding-left: 1.2em; }
caption { text-align: left; font-style: italic; padding: .4em 0; }
.published { font-size: .82rem; color: var(--page-faint); }
.published h4 { font-size: inherit; margin: 0; }
.published dl { margin: .2em 0 1.2em; }
.published dt { font-style: italic; }
.published dd { margin: 0 0 0 1em; }
.notes { margin: .6em 0; padding: 0; list-style: none; }
.notes li { margin: .35em 0; padding-left: 1em; border-left: 3px solid var(--page-rule); }
.notes li.error { border-left: 5px double var(--page-ink); }
.notes li.warning { border-left-color: var(--page-ink); }
.notes strong { font-weight: 600; }
.alarms { border: 1px solid var(--page-ink); padding: 0 1em; margin: .6em 0; }
.lack { font-style: italic; }
article.film, section.cut { break-inside: avoid-page; }
@media print { body { max-width: none; padding: 0; font-size: 10.5pt; } }
`;
