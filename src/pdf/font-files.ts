export const styles = ['regular', 'bold', 'italic'] as const;
export type FaceStyle = (typeof styles)[number];

const serif = (part: string, cut: string): string =>
  `@fontsource/source-serif-4/files/source-serif-4-${part}-${cut}.woff`;
const regular = (part: string): string => serif(part, '400-normal');
const arabic = '@fontsource/noto-naskh-arabic/files/noto-naskh-arabic-arabic-400-normal.woff';

/** What is rare has one style alone. */
const rare = [...['cyrillic-ext', 'vietnamese'].map(regular), arabic];

/** The files of type by style: a letter is taken from the first that has it. All are under the SIL Open Font License. */
export const fontFiles: Readonly<Record<FaceStyle, readonly string[]>> = {
  regular: [...['latin', 'latin-ext', 'greek', 'cyrillic'].map(regular), ...rare],
  bold: [...['latin', 'latin-ext', 'greek', 'cyrillic'].map((part) => serif(part, '600-normal')), ...rare],
  italic: [
    ...['latin', 'latin-ext'].map((part) => serif(part, '400-italic')),
    ...['greek', 'cyrillic'].map(regular),
    ...rare,
  ],
};
