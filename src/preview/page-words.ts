import { useWords, type WordTable } from '../../shared/language/words.ts';

// Loaded before every other part of the page: each finds the words that it shows in the language of the editor.
const written = document.getElementById('page')?.dataset['words'];
if (written !== undefined) useWords(JSON.parse(written) as WordTable);
