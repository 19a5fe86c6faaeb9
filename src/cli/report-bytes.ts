import { data } from 'dcmjs';
import type { ReportDataSet } from '../../shared/export/structured/report-data-set.ts';

/**
 * The file of a report. The library is heavy and seldom needed: this is a bundle of its own, loaded where a report is written. Of the
 * library only its writer is used: its templates put the hour of the day into a report and refuse every tracking identifier.
 */
export function reportBytes({ meta, elements }: ReportDataSet): Uint8Array {
  const file = new data.DicomDict(structuredClone({ '00020001': { vr: 'OB', Value: [version] }, ...meta }));
  file.dict = structuredClone(elements);
  return new Uint8Array(file.write());
}

/** File Meta Information Version, PS3.10 7.1. */
const version = Uint8Array.of(0, 1).buffer;
