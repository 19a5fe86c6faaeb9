/** How the marks of a course are inked; the words after @ are those of the plate's stylesheet. */
export const COURSE_RULES = `
& .stave-row .words { fill: @ink; }
& .usual .hatching { stroke: @quiet; opacity: 0.42; }
& .usual .limit { stroke: @quiet; opacity: 0.75; }
& .film-stroke .stroked { stroke: @ink; stroke-linecap: butt; opacity: 1; }
& .film-stroke.state-low .stroked, & .film-stroke.state-high .stroked,
& .film-stroke.state-act .stroked { stroke: @b; }
& .film-stroke.by-hand .value-ring, & .film-stroke.by-photo .value-square { fill: @paper; stroke: @ink; }
& .changes .stroked { stroke: @ink; }
& .changes .within-error { stroke: @quiet; }
& .changes .arrow { fill: @ink; }
& .changes .figure { fill: @ink; paint-order: stroke; stroke: @paper; stroke-width: 0.3em; stroke-linejoin: round; }
& .forecast .ray { stroke: @a; stroke-linecap: butt; }
& .lived { fill: @ink; }
& .to-come, & .trim-hair { stroke: @quiet; }
& .trim-hair { opacity: 0.7; }
& .touch { fill: transparent; pointer-events: all; }
& .cursor-line { stroke: @a; }
& .cursor-ring { stroke: @a; }
& .cursor-date { fill: @a; font-weight: bold; paint-order: stroke; stroke: @paper; stroke-width: 0.4em; }
& .reading { fill: @ink; font-weight: bold; }
& .cursor text { paint-order: stroke; stroke: @paper; stroke-width: 0.4em; stroke-linejoin: round; }
& .clear-word { fill: @ink; font-style: italic; }
`;
