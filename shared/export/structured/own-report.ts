/** Bytes within which a report of ours says whose it is: preamble, then its meta information. */
export const reportBeginning = 1024;

/**
 * Whether a file may be replaced by a report: it is one of this program already. A radiograph lies in such a file too, and is never
 * written over.
 */
export function isOwnReport(beginning: Uint8Array): boolean {
  const letters = String.fromCharCode(...beginning.subarray(0, reportBeginning));
  return letters.slice(128, 132) === 'DICM' && letters.includes('UNGULA ', 132);
}
