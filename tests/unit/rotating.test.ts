import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { usualChange } from '../../shared/trim/change-settings.ts';
import { courseText, type CourseVisit } from './course-text.ts';
import { rotated } from './moved-foot.ts';

/** A film a month, the bone turned about its extensor process by so many degrees on each. */
function films(degrees: readonly number[], more: Readonly<Record<number, readonly string[]>> = {}): string {
  return courseText(
    degrees.map((turn, index): CourseVisit => ({
      date: `2026-0${index + 1}-01`,
      places: rotated(turn),
      film: { header: `film LF lateral "f${index}.png"` },
      more: more[index] ?? [],
    })),
  );
}

const rotating = (text: string, settings: Parameters<typeof inspect>[1] = usualStudy) =>
  inspect(text, settings).findings.filter(({ code }) => code === 'course/rotating');
const severities = (text: string) => rotating(text).map(({ severity }) => severity);
/** Places that are known to the pixel: what is left is the error from film to film. */
const exact = (text: string): string => text.replaceAll(/(?<= @ [^\n]*)(?=\n)/g, ' +- 0');

describe('bone and wall that part further', () => {
  it('are a warning where they do so clearly, and never more, however ill the animal is', () => {
    expect(severities(films([0, 10]))).toEqual(['warning']);
    const ill = ['  obel 4', '  pulse LF bounding', '  sign fever'];
    expect(severities(films([0, 30], { 1: ill }))).toEqual(['warning']);
    expect(severities(films([0, 30]))).toEqual(['warning']);
  });

  it('have to pass 2°, whatever the error', () => {
    const still = { ...usualStudy, change: { ...usualChange, filmAngle: 0.01 } };
    expect(rotating(exact(films([0, 1.9])), still)).toEqual([]);
    expect(rotating(exact(films([0, 2.1])), still)).toHaveLength(1);
  });

  it('carry 1° of error from film to film beside the placings', () => {
    // Two films of 1° each: the difference has 1.41°, and 1.96 of that are 2.8°.
    expect(rotating(exact(films([0, 2.7])))).toEqual([]);
    expect(rotating(exact(films([0, 2.9])))).toHaveLength(1);
    const [told] = rotating(exact(films([0, 2.9])));
    expect(told?.value).toBeCloseTo(2.9, 6);
    expect(told?.message).toMatch(/2\.9/);
    expect(told?.message).toMatch(/± 1\.4/);
  });

  it('that creep are told when the sum is clear', () => {
    const creeping = [0, 2, 4, 6, 8];
    expect(severities(films(creeping.slice(0, 2)))).toEqual([]);
    expect(severities(films(creeping))).toEqual(['warning']);
  });

  it('say nothing where they close again, or where only the bone sinks', () => {
    expect(severities(films([10, 0]))).toEqual([]);
    expect(severities(films([5, 5, 5]))).toEqual([]);
  });

  it('are closed by the vet who saw the animal afterwards, and by two later films near the old angle, not by one', () => {
    expect(severities(films([0, 10, 10], { 1: ['  vet seen 2026-02-02'] }))).toEqual(['hint']);
    expect(severities(films([0, 10, 10], { 1: ['  vet "agrees"'] }))).toEqual(['warning']);
    expect(severities(films([0, 10, 0.5]))).toEqual(['warning']);
    expect(severities(films([0, 10, 0.5, 0.5]))).toEqual(['hint']);
    expect(severities(films([0, 10, 20], { 1: ['  vet seen 2026-02-02'] }))).toEqual(['hint', 'warning']);
  });
});
