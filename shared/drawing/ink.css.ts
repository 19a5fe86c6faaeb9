import { COURSE_RULES } from './course/course-ink.ts';

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
.ungula-plate { background: @paper; color: @ink; font-family: @lettering; }
.ungula-plate .context { fill: @paper; stroke: none; }
.ungula-plate path, .ungula-plate circle { fill: none; stroke: none; stroke-linecap: round; stroke-linejoin: round; }
.ungula-plate text { fill: @ink; font-variant-numeric: lining-nums tabular-nums; }
.ungula-plate .stroked, .ungula-plate .dots { stroke: @ink; }
.ungula-plate .halo { stroke: @paper; opacity: 0.85; }
.ungula-plate .hatch, .ungula-plate .horn, .ungula-plate .hair, .ungula-plate .strand { fill: @ink; }
.ungula-plate .bone-body { fill: @paper; }
.ungula-plate .bone.hint { opacity: 0.45; }
.ungula-plate .horn-part.quarter .horn, .ungula-plate .cushion .dots { opacity: 0.7; }
.ungula-plate .words { font-style: italic; }
.ungula-plate .state-word, .ungula-plate .note, .ungula-plate .sentence { font-style: italic; fill: @quiet; }
.ungula-plate .sentence { fill: @ink; }
.ungula-plate .measure .stroked { stroke: @a; }
.ungula-plate .label .leader { stroke: @quiet; opacity: 0.75; }
.ungula-plate .label .anchor { fill: @a; }
.ungula-plate .label .rule, .ungula-plate .label .band { stroke: @quiet; }
.ungula-plate .label .tick, .ungula-plate .label .error { stroke: @a; stroke-linecap: butt; }
.ungula-plate .label .error { opacity: 0.45; }
.ungula-plate .measure.state-low .stroked, .ungula-plate .measure.state-high .stroked, .ungula-plate .measure.state-act .stroked,
.ungula-plate .state-low .tick, .ungula-plate .state-high .tick, .ungula-plate .state-act .tick,
.ungula-plate .state-low .error, .ungula-plate .state-high .error, .ungula-plate .state-act .error { stroke: @b; }
.ungula-plate .label .band-rule .rule, .ungula-plate .label .band-rule .band { stroke: @quiet; }
.ungula-plate .state-low .anchor, .ungula-plate .state-high .anchor, .ungula-plate .state-act .anchor { fill: @b; }
.ungula-plate .state-low .state-word, .ungula-plate .state-high .state-word { fill: @b; }
.ungula-plate .state-act .state-word { fill: @b; font-weight: bold; }
.ungula-plate .label.is-lit .leader { stroke: @ink; opacity: 1; }
.ungula-plate .label.is-lit .value { font-weight: bold; }
.ungula-plate .inside-label.quiet { visibility: hidden; }
.ungula-plate .inside-label.quiet.is-lit { visibility: visible; }
.ungula-plate .inside-words { paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; }
.ungula-plate .inside-label .leader { stroke: @quiet; }
.ungula-plate .inside-label .anchor { fill: @a; }
.ungula-plate .inside-label.is-lit .value { font-weight: bold; }
.ungula-plate .landmark .hit { fill: transparent; pointer-events: all; }
.ungula-plate .landmark .landmark-name { visibility: hidden; pointer-events: none; }
.ungula-plate .landmark.is-lit .landmark-name, .ungula-plate .landmark.is-named .landmark-name { visibility: visible; }
.ungula-plate .landmark:hover .landmark-name { visibility: visible; }
.ungula-plate .landmark .ring, .ungula-plate .landmark.is-lit .mark { stroke: @a; }
.ungula-plate .landmark:hover .mark { stroke: @a; }
.ungula-plate .landmark-name, .ungula-plate .note { paint-order: stroke; stroke: @paper; stroke-width: 0.24em; stroke-linejoin: round; }
.ungula-plate .key-ring, .ungula-plate .key-way { stroke: @b; }
.ungula-plate .key-words { font-style: italic; paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; pointer-events: none; }
.ungula-plate .key-mark.is-agrees .key-ring { stroke: @a; }
.ungula-plate .label .becomes { fill: @paper; stroke: @ink; }
.ungula-plate .cut-hatch, .ungula-plate .cut-anchor { fill: @ink; }
.ungula-plate .cut .axis { stroke: @a; }
.ungula-plate .live { fill: @b; }
.ungula-plate .cut .live-edge { stroke: @b; }
.ungula-plate .cut-words { paint-order: stroke; stroke: @paper; stroke-width: 0.26em; stroke-linejoin: round; }
.ungula-plate .over-line { stroke: @a; }
.ungula-plate .over-hatch, .ungula-plate .wedge-hatch { fill: @a; }
.ungula-plate .state-high .wedge-hatch, .ungula-plate .state-act .wedge-hatch { fill: @b; }
.ungula-plate.on-picture .bone-body { fill: none; }
.ungula-plate.on-picture .halo { stroke: @filmHalo; opacity: 0.7; }
.ungula-plate.on-picture .film .stroked, .ungula-plate.on-picture .film .dots { stroke: @filmInk; }
.ungula-plate.on-picture .film .hatch, .ungula-plate.on-picture .film .horn, .ungula-plate.on-picture .film .hair,
.ungula-plate.on-picture .film .strand { fill: @filmInk; opacity: 0.42; }
.ungula-plate.on-picture .film .hatch { opacity: 0.26; }
.ungula-plate.on-picture .film .dots { opacity: 0.5; }
.ungula-plate.on-picture .film .hairline, .ungula-plate.on-picture .film .inner { opacity: 0.6; }
.ungula-plate.on-picture .film .landmark-name, .ungula-plate.on-picture .film .note { fill: @filmInk; stroke: @filmHalo; }
.ungula-plate.on-picture .label .film .leader, .ungula-plate.on-picture .inside-label.film .leader { stroke: @filmInk; }
.ungula-plate.on-picture .measure.film .stroked,
.ungula-plate.on-picture .film .landmark .ring, .ungula-plate.on-picture .film .landmark.is-lit .mark { stroke: @filmA; }
.ungula-plate.on-picture .film .landmark:hover .mark { stroke: @filmA; }
.ungula-plate.on-picture .label .film .anchor, .ungula-plate.on-picture .inside-label.film .anchor { fill: @filmA; }
.ungula-plate.on-picture .film.state-low .stroked, .ungula-plate.on-picture .film.state-high .stroked,
.ungula-plate.on-picture .film.state-act .stroked { stroke: @filmB; }
.ungula-plate.on-picture .state-low .film .anchor, .ungula-plate.on-picture .state-high .film .anchor,
.ungula-plate.on-picture .state-act .film .anchor { fill: @filmB; }
.ungula-plate.on-picture .film .key-ring, .ungula-plate.on-picture .film .key-way { stroke: @filmB; }
.ungula-plate.on-picture .film .key-words { fill: @filmInk; stroke: @filmHalo; }
.ungula-plate.on-picture .film .key-mark.is-agrees .key-ring { stroke: @filmA; }
.ungula-plate.on-picture .film .cut-hatch, .ungula-plate.on-picture .film .cut-anchor { fill: @filmInk; }
.ungula-plate.on-picture .over.film .over-line { stroke: @filmA; }
.ungula-plate.on-picture .over.film .over-hatch, .ungula-plate.on-picture .film .wedge-hatch { fill: @filmA; opacity: 0.75; }
.ungula-plate.on-picture .film.state-high .wedge-hatch, .ungula-plate.on-picture .film.state-act .wedge-hatch { fill: @filmB; }
.ungula-plate.on-picture .cut.film .axis { stroke: @filmA; }
.ungula-plate.on-picture .film .live { fill: @filmB; }
.ungula-plate.on-picture .cut.film .live-edge { stroke: @filmB; }
.ungula-plate.on-picture .film .cut-words, .ungula-plate.on-picture .film .inside-words { fill: @filmInk; stroke: @filmHalo; }
.ungula-plate.on-picture .film.state-low .inside-words .value, .ungula-plate.on-picture .film.state-high .inside-words .value,
.ungula-plate.on-picture .film.state-act .inside-words .value { fill: @filmB; }
.ungula-plate .ghost { opacity: 0.32; }
${COURSE_RULES}`;

function filled(value: (key: keyof Palette) => string): string {
  return RULES.replace(/@(filmInk|filmHalo|filmA|filmB|ink|paper|quiet|lettering|a|b)\b/g, (_all, key: string) =>
    value(key === 'a' ? 'accentA' : key === 'b' ? 'accentB' : (key as keyof Palette)),
  );
}

/** Plain colours, for a file that stands alone: many viewers know no custom properties. */
export function inkCss(palette: Partial<Palette>): string {
  return filled((key) => palette[key] ?? PAPER[key]);
}

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
export const INK_CSS = `${filled((key) => `var(${PROPERTY[key]}, ${PAPER[key]})`)}
@media print {
  .ungula-plate { ${printed} }
}
@media (forced-colors: active) {
  .ungula-plate { --ungula-ink: CanvasText; --ungula-paper: Canvas; --ungula-quiet: CanvasText; --ungula-accent-a: LinkText; --ungula-accent-b: CanvasText; forced-color-adjust: none; }
}
`;
