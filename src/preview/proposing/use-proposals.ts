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
    if (question) proposer.current?.ask(question);
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
  const ends = input.landmarks.filter(({ name }) => name === 'p3.tip' || name === 'p3.wing');
  const hasLine = input.ground !== null || input.bearing !== null;
  if (ends.length < 2 || !hasLine || input.scale === null) return null;
  // A scale from the bones goes by all of them.
  return input.scale.kind === 'bone' ? input : { ...input, landmarks: ends };
}
