/** Radii at size 1. A joint's two surfaces are concentric, so a joint centre is exact whichever way it bends. */
export const joint = {
  coffin: 14.6,
  coffinSocket: 16.4,
  pastern: 13,
  pasternSocket: 14.7,
  fetlock: 20.5,
  fetlockSocket: 22.3,
};
