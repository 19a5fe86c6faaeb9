/** What a value is taken from, in the order in which courses show them. Each is a series of its own. */
export const courseSources = ['film', 'photo', 'hand'] as const;
export type CourseSource = (typeof courseSources)[number];
