/** How the marks of a course are inked; the words after @ are those of the plate's stylesheet. */
export const COURSE_RULES = `
.ungula-plate .quiet, .ungula-plate .limit-figure { fill: @quiet; }
.ungula-plate .stave-row .words { fill: @ink; }
.ungula-plate .scale { stroke: @quiet; opacity: 0.6; }
.ungula-plate .usual .hatching { stroke: @quiet; opacity: 0.42; }
.ungula-plate .usual .limit { stroke: @quiet; opacity: 0.75; }
.ungula-plate .film-stroke .stroked { stroke: @ink; stroke-linecap: butt; opacity: 1; }
.ungula-plate .film-stroke.state-low .stroked, .ungula-plate .film-stroke.state-high .stroked,
.ungula-plate .film-stroke.state-act .stroked { stroke: @b; }
.ungula-plate .film-stroke.by-hand .value-ring, .ungula-plate .film-stroke.by-photo .value-square { fill: @paper; stroke: @ink; }
.ungula-plate .changes .stroked { stroke: @ink; }
.ungula-plate .changes .within-error { stroke: @quiet; }
.ungula-plate .changes .arrow { fill: @ink; }
.ungula-plate .changes .figure { fill: @ink; paint-order: stroke; stroke: @paper; stroke-width: 0.3em; stroke-linejoin: round; }
.ungula-plate .forecast .ray { stroke: @a; stroke-linecap: butt; }
.ungula-plate .lived { fill: @ink; }
.ungula-plate .to-come, .ungula-plate .trim-hair { stroke: @quiet; }
.ungula-plate .trim-hair { opacity: 0.7; }
.ungula-plate .touch { fill: transparent; pointer-events: all; }
.ungula-plate .cursor-line { stroke: @a; }
.ungula-plate .cursor-ring { stroke: @a; }
.ungula-plate .cursor-date { fill: @a; font-weight: bold; paint-order: stroke; stroke: @paper; stroke-width: 0.4em; }
.ungula-plate .reading { fill: @ink; font-weight: bold; }
.ungula-plate .cursor text { paint-order: stroke; stroke: @paper; stroke-width: 0.4em; stroke-linejoin: round; }
.ungula-plate .clear-word { fill: @ink; font-style: italic; }
`;
