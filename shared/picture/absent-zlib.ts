// dicom-parser asks for Node's zlib as it loads, though it is never called here (dicom-file.ts inflates). Bundles for a browser, and
// bundles that are ES modules, put this empty file in its place: `alias: { zlib: ... }`.
export default {};
