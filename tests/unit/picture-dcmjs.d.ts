// The parts of dcmjs that the tests use; the library brings no types.
declare module 'dcmjs' {
  type Fields = Record<string, unknown>;
  class DicomDict {
    constructor(meta: Fields);
    dict: Fields;
    write(): ArrayBuffer;
  }
  const dcmjs: {
    data: { DicomDict: typeof DicomDict; DicomMetaDictionary: { denaturalizeDataset(fields: Fields): Fields } };
  };
  export default dcmjs;
}
