/** Ranges of a colour profile's header that tell of a device or a day and do not change a colour (ICC.1:2022, 7.2). */
const telling = [
  [4, 8], // the program that wrote it
  [24, 36], // when
  [48, 64], // maker, model and settings of the device
  [80, 100], // who wrote it, and the sum that no longer holds
] as const;

/** A colour profile without day, device and writer; its beginning is enough. */
export function bareProfile(profile: Uint8Array): Uint8Array {
  const bare = profile.slice();
  for (const [from, to] of telling) bare.fill(0, from, to);
  return bare;
}
