/** What a foot's growth is taken from: its own films, its tape, or what is usual. */
export const growthSources = ['films', 'tape', 'usual'] as const;
export type GrowthSource = (typeof growthSources)[number];
