import type { Finding } from '../finding.ts';

const inOrder = (a: Finding, b: Finding): number => a.at.start - b.at.start || a.at.end - b.at.end;

/** Sorts findings by where they begin, keeping the order of equals. The same array where it is sorted already. */
export function inTextOrder(findings: Finding[]): Finding[] {
  for (let index = 1; index < findings.length; index++)
    if (inOrder(findings[index - 1] as Finding, findings[index] as Finding) > 0) return findings.sort(inOrder);
  return findings;
}

/** Merges two sorted lists; of equals those of the first list come first. */
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
