import type { Page } from 'playwright-core';

interface Theme {
  /** Classes of the body, as the editor sets them. */
  readonly classes: string;
  readonly scheme: 'light' | 'dark';
  readonly colours: Readonly<Record<string, string>>;
}

/** What a page of VS Code's own themes is given, of that what this page uses. Written down by hand from the editor's default themes. */
export const themes: Readonly<Record<string, Theme>> = {
  light: {
    classes: 'vscode-light',
    scheme: 'light',
    colours: {
      'editor-background': '#ffffff',
      'editor-foreground': '#3b3b3b',
      descriptionForeground: '#3b3b3b',
      focusBorder: '#005fb8',
      'dropdown-background': '#ffffff',
      'dropdown-foreground': '#3b3b3b',
      'dropdown-border': '#cecece',
    },
  },
  dark: {
    classes: 'vscode-dark',
    scheme: 'dark',
    colours: {
      'editor-background': '#1f1f1f',
      'editor-foreground': '#cccccc',
      descriptionForeground: '#9d9d9d',
      focusBorder: '#0078d4',
      'dropdown-background': '#313131',
      'dropdown-foreground': '#cccccc',
      'dropdown-border': '#3c3c3c',
    },
  },
  'high contrast dark': {
    classes: 'vscode-high-contrast',
    scheme: 'dark',
    colours: {
      'editor-background': '#000000',
      'editor-foreground': '#ffffff',
      descriptionForeground: 'rgba(255, 255, 255, 0.7)',
      focusBorder: '#f38518',
      contrastBorder: '#6fc3df',
      'dropdown-background': '#000000',
      'dropdown-foreground': '#ffffff',
      'dropdown-border': '#6fc3df',
    },
  },
  'high contrast light': {
    classes: 'vscode-high-contrast-light vscode-high-contrast',
    scheme: 'light',
    colours: {
      'editor-background': '#ffffff',
      'editor-foreground': '#292929',
      descriptionForeground: 'rgba(41, 41, 41, 0.7)',
      focusBorder: '#006bbd',
      contrastBorder: '#0f4a85',
      'dropdown-background': '#ffffff',
      'dropdown-foreground': '#292929',
      'dropdown-border': '#0f4a85',
    },
  },
};

export async function putOn(page: Page, { classes, scheme, colours }: Theme): Promise<void> {
  await page.evaluate(
    ({ classes, scheme, colours }) => {
      document.body.className = classes;
      const { style } = document.documentElement;
      style.colorScheme = scheme;
      for (const [name, colour] of Object.entries(colours)) style.setProperty(`--vscode-${name}`, colour);
    },
    { classes, scheme, colours },
  );
  // What fades from one colour to the next has done so.
  await page.waitForTimeout(150);
}
