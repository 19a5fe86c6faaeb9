/** How grave a finding is, gravest first. */
export const severities = ['error', 'warning', 'info', 'hint'] as const;
export type Severity = (typeof severities)[number];
