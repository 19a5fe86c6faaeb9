import './page-words.ts';
import { couldNotLoad } from './could-not-load.ts';

// Not loaded as one with the rest: what the parts have in common runs before this file does, and would still speak English.
import('./start.tsx').catch(() => {
  const page = document.getElementById('page');
  if (page) page.textContent = couldNotLoad();
});
