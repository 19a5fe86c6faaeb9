import { createRequire } from 'node:module';

/** What the web host is started with: the options of the package that serves it, as far as they are used here. */
export interface ServeWeb {
  server: string;
  options: {
    browserType: 'none';
    quality: 'stable';
    commit: string;
    testRunnerDataDir: string;
    extensionDevelopmentPath: string;
    extensionTestsPath?: string;
    folderPath: string;
    /** With another name for it the workbench finds no place of its own for webviews. */
    host: 'localhost';
    port: number;
  };
}

/** A process of its own, so that it can be stopped whatever the server does. */
if (import.meta.main) {
  const { server, options } = JSON.parse(process.argv[2] ?? '') as ServeWeb;
  const { open } = createRequire(import.meta.url)(server) as { open(options: ServeWeb['options']): Promise<unknown> };
  await open(options);
}
