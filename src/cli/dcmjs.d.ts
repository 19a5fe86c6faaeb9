// The parts of dcmjs that are used; the library brings no types.
declare module 'dcmjs' {
  type Fields = Record<string, unknown>;
  class DicomDict {
    constructor(meta: Fields);
    dict: Fields;
    write(): ArrayBuffer;
  }
  export const data: {
    DicomDict: typeof DicomDict;
    DicomMetaDictionary: { denaturalizeDataset(fields: Fields): Fields };
  };
  const dcmjs: { data: typeof data };
  export default dcmjs;
}
