import type { Finding } from '../finding.ts';

const inOrder = (a: Finding, b: Finding): number => a.at.start - b.at.start || a.at.end - b.at.end;

/** Findings in the order of the text; of one place, in the order in which they were told. The same array where they are. */
export function inTextOrder(findings: Finding[]): Finding[] {
  for (let index = 1; index < findings.length; index++)
    if (inOrder(findings[index - 1] as Finding, findings[index] as Finding) > 0) return findings.sort(inOrder);
  return findings;
}

/** Two lists in the order of the text made into one; of one place, the first list's before the second's. */
export function merged(first: readonly Finding[], second: readonly Finding[]): readonly Finding[] {
  if (first.length === 0) return second;
  if (second.length === 0) return first;
  const all: Finding[] = [];
  let next = 0;
  for (const finding of second) {
    while (next < first.length && inOrder(first[next] as Finding, finding) <= 0) all.push(first[next++] as Finding);
    all.push(finding);
  }
  while (next < first.length) all.push(first[next++] as Finding);
  return all;
}
