import { caseText, filmText } from '../unit/plain-foot.ts';

/** The foot of the plans that `docs/model.md` works out on paper, on one plane and on two. */
export const workedCase = caseText(
  filmText(
    {
      'heel.ground': [-110, 0],
      'toe.ground': [30, 0],
      'p3.tip': [0, 16],
      'p3.wing': [-80, 30],
      'sole.tip': [0, 2],
      'sole.wing': [-80, 10],
      'sole.heel': [-104, 12],
    },
    // 0.1 mm a pixel, with the frame's origin at x = 2000: from -140 to 60 mm.
    { ground: 'ground 600, 1000 .. 2600, 1000' },
  ),
);
