/** 1 to 8 as in the EXIF standard (CIPA DC-008, tag 274): how the stored picture must be turned to be looked at. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

/** Size as stored, in pixels, before it is turned. */
export interface StoredSize {
  readonly width: number;
  readonly height: number;
  readonly orientation: Orientation;
}

/** Orientations 5 to 8 lie on their side. */
export function turnsOnItsSide(orientation: Orientation): boolean {
  return orientation >= 5;
}

/** What a tag says, or upright where it says nothing that the standard knows. */
export function orientationFrom(value: number | undefined): Orientation {
  return value !== undefined && Number.isInteger(value) && value >= 1 && value <= 8 ? (value as Orientation) : 1;
}
