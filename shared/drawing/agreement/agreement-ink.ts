/** How agreement is inked; the words after @ are those of the plate's stylesheet. */
export const AGREEMENT_RULES = `
& .limit-band .stroked { stroke: @ink; stroke-linecap: butt; }
& .zero { stroke: @quiet; }
& .bias-band .stroked { stroke: @a; }
& .bias-band .hatching { opacity: 0.5; }
& .growth .stroked { stroke: @b; }
& .film-point { fill: @paper; stroke: @ink; }
& .scatter .stroked { stroke: @a; }
& .scatter .one-sd { fill: @a; fill-opacity: 0.22; }
& .scatter .is-lit .stroked { stroke: @b; }
`;
