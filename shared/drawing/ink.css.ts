/**
 * The plate's stylesheet. The page that shows a plate sets the `--ungula-*` properties from its theme; every one
 * has a fallback here, so that a plate without a page is ink on paper.
 */
export interface Palette {
  readonly ink: string;
  readonly paper: string;
  readonly quiet: string;
  /** Within its band, or nothing to compare with. */
  readonly accentA: string;
  /** Outside its band. */
  readonly accentB: string;
  readonly filmInk: string;
  readonly filmHalo: string;
  readonly filmA: string;
  readonly filmB: string;
  readonly lettering: string;
}

export const PAPER: Palette = {
  ink: '#211c17',
  paper: '#fbf8f0',
  quiet: '#6d665c',
  accentA: '#1f5f8b',
  accentB: '#b4470f',
  filmInk: '#fdf6e6',
  filmHalo: '#0b0d10',
  filmA: '#8fd0ff',
  filmB: '#ffb070',
  lettering:
    "'Iowan Old Style', 'Palatino Linotype', Palatino, 'Book Antiqua', 'Source Serif 4', Georgia, 'DejaVu Serif', serif",
};

const PROPERTY: Readonly<Record<keyof Palette, string>> = {
  ink: '--ungula-ink',
  paper: '--ungula-paper',
  quiet: '--ungula-quiet',
  accentA: '--ungula-accent-a',
  accentB: '--ungula-accent-b',
  filmInk: '--ungula-film-ink',
  filmHalo: '--ungula-film-halo',
  filmA: '--ungula-film-accent-a',
  filmB: '--ungula-film-accent-b',
  lettering: '--ungula-lettering',
};

// What holds under the pointer has rules of its own: a reader that knows no pointer drops the whole list of selectors.
const RULES = `
& { background: @paper; color: @ink; font-family: @lettering; }
& .context { fill: @paper; stroke: none; }
& path, & circle { fill: none; stroke: none; stroke-linecap: round; stroke-linejoin: round; }
& text { fill: @ink; font-variant-numeric: lining-nums tabular-nums; }
& .stroked, & .dots { stroke: @ink; }
& .halo { stroke: @paper; opacity: 0.85; }
& .hatch, & .horn, & .hair, & .strand { fill: @ink; }
& .bone-body { fill: @paper; }
& .bone.hint { opacity: 0.45; }
& .horn-part.quarter .horn, & .cushion .dots { opacity: 0.7; }
& .words { font-style: italic; }
& .state-word, & .note, & .sentence { font-style: italic; fill: @quiet; }
& .sentence { fill: @ink; }
& .measure .stroked { stroke: @a; }
& .label .leader { stroke: @quiet; opacity: 0.75; }
& .label .anchor { fill: @a; }
& .label .rule, & .label .band { stroke: @quiet; }
& .label .tick, & .label .error { stroke: @a; stroke-linecap: butt; }
& .label .error { opacity: 0.45; }
& .measure.state-low .stroked, & .measure.state-high .stroked, & .measure.state-act .stroked,
& .state-low .tick, & .state-high .tick, & .state-act .tick,
& .state-low .error, & .state-high .error, & .state-act .error { stroke: @b; }
& .label .band-rule .rule, & .label .band-rule .band { stroke: @quiet; }
& .state-low .anchor, & .state-high .anchor, & .state-act .anchor { fill: @b; }
& .state-low .state-word, & .state-high .state-word { fill: @b; }
& .state-act .state-word { fill: @b; font-weight: bold; }
& .label.is-lit .leader { stroke: @ink; opacity: 1; }
& .label.is-lit .value { font-weight: bold; }
& .inside-label.quiet { visibility: hidden; }
& .inside-label.quiet.is-lit { visibility: visible; }
& .inside-words { paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; }
& .inside-label .leader { stroke: @quiet; }
& .inside-label .anchor { fill: @a; }
& .inside-label.is-lit .value { font-weight: bold; }
& .landmark .hit { fill: transparent; pointer-events: all; }
& .landmark .landmark-name { visibility: hidden; pointer-events: none; }
& .landmark.is-lit .landmark-name, & .landmark.is-named .landmark-name { visibility: visible; }
& .landmark:hover .landmark-name { visibility: visible; }
& .landmark .ring, & .landmark.is-lit .mark { stroke: @a; }
& .landmark:hover .mark { stroke: @a; }
& .landmark-name, & .note { paint-order: stroke; stroke: @paper; stroke-width: 0.24em; stroke-linejoin: round; }
& .key-ring, & .key-way { stroke: @b; }
& .key-words { font-style: italic; paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; pointer-events: none; }
& .key-mark.is-agrees .key-ring { stroke: @a; }
& .label .becomes { fill: @paper; stroke: @ink; }
& .cut-hatch, & .cut-anchor { fill: @ink; }
& .cut .axis { stroke: @a; }
& .live { fill: @b; }
& .cut .live-edge { stroke: @b; }
& .cut-words { paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; }
& .over-line { stroke: @a; }
& .over-hatch, & .wedge-hatch { fill: @a; }
& .state-high .wedge-hatch, & .state-act .wedge-hatch { fill: @b; }
&.on-picture .bone-body { fill: none; }
&.on-picture .halo { stroke: @filmHalo; opacity: 0.7; }
&.on-picture .film .stroked, &.on-picture .film .dots { stroke: @filmInk; }
&.on-picture .film .hatch, &.on-picture .film .horn, &.on-picture .film .hair,
&.on-picture .film .strand { fill: @filmInk; opacity: 0.42; }
&.on-picture .film .hatch { opacity: 0.26; }
&.on-picture .film .dots { opacity: 0.5; }
&.on-picture .film .hairline, &.on-picture .film .inner { opacity: 0.6; }
&.on-picture .film .landmark-name, &.on-picture .film .note { fill: @filmInk; stroke: @filmHalo; }
&.on-picture .label .film .leader, &.on-picture .inside-label.film .leader { stroke: @filmInk; }
&.on-picture .measure.film .stroked,
&.on-picture .film .landmark .ring, &.on-picture .film .landmark.is-lit .mark { stroke: @filmA; }
&.on-picture .film .landmark:hover .mark { stroke: @filmA; }
&.on-picture .label .film .anchor, &.on-picture .inside-label.film .anchor { fill: @filmA; }
&.on-picture .film.state-low .stroked, &.on-picture .film.state-high .stroked,
&.on-picture .film.state-act .stroked { stroke: @filmB; }
&.on-picture .state-low .film .anchor, &.on-picture .state-high .film .anchor,
&.on-picture .state-act .film .anchor { fill: @filmB; }
&.on-picture .film .key-ring, &.on-picture .film .key-way { stroke: @filmB; }
&.on-picture .film .key-words { fill: @filmInk; stroke: @filmHalo; }
&.on-picture .film .key-mark.is-agrees .key-ring { stroke: @filmA; }
&.on-picture .film .cut-hatch, &.on-picture .film .cut-anchor { fill: @filmInk; }
&.on-picture .over.film .over-line { stroke: @filmA; }
&.on-picture .over.film .over-hatch, &.on-picture .film .wedge-hatch { fill: @filmA; opacity: 0.75; }
&.on-picture .film.state-high .wedge-hatch, &.on-picture .film.state-act .wedge-hatch { fill: @filmB; }
&.on-picture .cut.film .axis { stroke: @filmA; }
&.on-picture .film .live { fill: @filmB; }
&.on-picture .cut.film .live-edge { stroke: @filmB; }
&.on-picture .film .cut-words, &.on-picture .film .inside-words { fill: @filmInk; stroke: @filmHalo; }
&.on-picture .film.state-low .inside-words .value, &.on-picture .film.state-high .inside-words .value,
&.on-picture .film.state-act .inside-words .value { fill: @filmB; }
& .ghost { opacity: 0.32; }
& .quiet, & .limit-figure { fill: @quiet; }
& .scale { stroke: @quiet; opacity: 0.6; }
`;

/** `&` is the drawing, the words after @ the colours. */
function filled(rules: string, value: (key: keyof Palette) => string): string {
  return rules
    .replaceAll('&', '.ungula-plate')
    .replace(/@(filmInk|filmHalo|filmA|filmB|ink|paper|quiet|lettering|a|b)\b/g, (_all, key: string) =>
      value(key === 'a' ? 'accentA' : key === 'b' ? 'accentB' : (key as keyof Palette)),
    );
}

/** Plain colours, for a file that stands alone: many viewers know no custom properties. `more`: a scene's own rules. */
export function inkCss(palette: Partial<Palette>, more = ''): string {
  return filled(RULES + more, (key) => palette[key] ?? PAPER[key]);
}

/** Rules of scenes for a page's stylesheet, in the colours that the page sets. */
export const themedInk = (rules: string): string => filled(rules, (key) => `var(${PROPERTY[key]}, ${PAPER[key]})`);

/** As on paper, whatever the theme of a page is. */
export const PRINTED: Partial<Palette> = {
  ink: '#000',
  paper: '#fff',
  quiet: '#333',
  accentA: '#444',
  accentB: '#000',
};

const printed = Object.entries(PRINTED)
  .map(([key, value]) => `${PROPERTY[key as keyof Palette]}: ${value};`)
  .join(' ');

/** For a page's stylesheet: theme colours where the page sets them, and print and high contrast minded. */
export const INK_CSS = `${themedInk(RULES)}
@media print {
  .ungula-plate { ${printed} }
}
@media (forced-colors: active) {
  .ungula-plate { --ungula-ink: CanvasText; --ungula-paper: Canvas; --ungula-quiet: CanvasText; --ungula-accent-a: LinkText; --ungula-accent-b: CanvasText; forced-color-adjust: none; }
}
`;
