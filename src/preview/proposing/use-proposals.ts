import { useEffect, useRef } from 'preact/hooks';
import type { FootInput } from '../../../shared/geometry/foot-input.ts';
import type { FilmBefore } from '../../../shared/views/film-before.ts';
import type { FilmSheet } from '../../../shared/views/film-sheet.ts';
import type { PlacingModel } from '../placing/placing-model.ts';
import { Proposer, type Question } from './proposer.ts';
import { fetched, startProposing } from './start-worker.ts';

/** What the model needs to propose places on the film that is shown. */
export interface ProposalGrounds {
  readonly before: FilmBefore | null;
  /** Addresses of both pictures in the page; null until they are known. */
  readonly pictureBefore: string | null;
  readonly picture: string | null;
}

/** Asks for proposals as soon as what they rest on is placed, and anew where that is moved. The model hears the answer. */
export function useProposals(model: PlacingModel, live: FilmSheet, grounds: ProposalGrounds): void {
  const proposer = useRef<Proposer | null>(null);
  const { picture, pictureBefore } = grounds;
  const isFilm = live.view === 'lateral' && live.kind === 'film';
  const isOn = model.proposes && isFilm && picture !== null && (grounds.before === null || pictureBefore !== null);
  // What is moved is proposed for once it lies still.
  const question = isOn && !model.isDragging ? questionFor(live, grounds) : null;
  useEffect(() => {
    if (!isOn) return;
    proposer.current ??= new Proposer({
      start: startProposing,
      load: fetched,
      heard: ({ key, before }, proposed) => model.heardProposals(key, proposed, before !== null),
    });
    proposer.current.ready(pictureBefore === null ? [picture] : [pictureBefore, picture]);
  }, [isOn, picture, pictureBefore]);
  useEffect(() => {
    if (!model.isDragging) model.seekProposals(question?.key ?? null);
    if (question && !model.hasProposals(question.key)) proposer.current?.ask(question);
  }, [question?.key]);
  useEffect(
    () => () => {
      proposer.current?.close();
      proposer.current = null;
    },
    [],
  );
}

/** Null until marker, ground and both ends of the pedal bone are placed: the rest rests on them. */
export function questionFor(
  { input }: FilmSheet,
  { before, picture, pictureBefore }: ProposalGrounds,
): Question | null {
  const foot = basis(input);
  if (!foot || picture === null || (before && pictureBefore === null)) return null;
  const one = before && pictureBefore !== null ? { href: pictureBefore, foot: before.input } : null;
  const other = { href: picture, foot };
  return { key: JSON.stringify([one, other]), before: one, now: other };
}

/** Only what proposals rest on: whatever else is placed changes none of them. */
function basis(input: FootInput): FootInput | null {
  const isPlaced = (name: string): boolean => input.landmarks.some((one) => one.name === name);
  const hasLine = input.ground !== null || input.bearing !== null;
  if (!isPlaced('p3.tip') || !isPlaced('p3.wing') || !hasLine || input.scale === null) return null;
  const names = new Set<string>(['p3.tip', 'p3.wing', 'p3.wing.other']);
  // A scale from the bones goes by the lengths that it knows.
  if (input.scale.kind === 'bone')
    for (const { from, to } of input.scale.lengths) for (const name of [from, to]) names.add(name);
  return { ...input, landmarks: input.landmarks.filter(({ name }) => names.has(name)) };
}
