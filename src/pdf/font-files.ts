/** What one file of type holds letters for, in the order in which they are tried. */
const serif = ['latin', 'latin-ext', 'greek', 'cyrillic', 'cyrillic-ext', 'vietnamese'] as const;

export const styles = ['regular', 'bold', 'italic'] as const;
export type FaceStyle = (typeof styles)[number];

const cut: Readonly<Record<FaceStyle, string>> = {
  regular: '400-normal',
  bold: '600-normal',
  italic: '400-italic',
};

const ofSerif = '@fontsource/source-serif-4/files/source-serif-4';
const arabic = '@fontsource/noto-naskh-arabic/files/noto-naskh-arabic-arabic';

/** The files of type by style: a letter is taken from the first that has it. All are under the SIL Open Font License. */
export const fontFiles: Readonly<Record<FaceStyle, readonly string[]>> = {
  regular: filesOf('regular', '400'),
  bold: filesOf('bold', '600'),
  // Arabic has no slanted letters.
  italic: filesOf('italic', '400'),
};

function filesOf(style: FaceStyle, ofArabic: string): string[] {
  return [...serif.map((part) => `${ofSerif}-${part}-${cut[style]}.woff`), `${arabic}-${ofArabic}-normal.woff`];
}
