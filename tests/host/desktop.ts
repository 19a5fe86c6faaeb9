import { join } from 'node:path';
import { runTests } from '@vscode/test-electron';

export interface DesktopRun {
  executable: string;
  extension: string;
  suite: string;
  workspace: string;
  profile: string;
  env: Record<string, string>;
}

async function runInDesktop(run: DesktopRun): Promise<void> {
  await runTests({
    vscodeExecutablePath: run.executable,
    extensionDevelopmentPath: run.extension,
    extensionTestsPath: run.suite,
    extensionTestsEnv: run.env,
    launchArgs: [
      run.workspace,
      '--disable-extensions',
      `--user-data-dir=${join(run.profile, 'user')}`,
      `--extensions-dir=${join(run.profile, 'extensions')}`,
    ],
  });
}

if (import.meta.main) {
  try {
    await runInDesktop(JSON.parse(process.argv[2] ?? '') as DesktopRun);
  } catch (error) {
    console.log(`  the desktop VS Code: ${error instanceof Error ? error.message : String(error)}`);
    process.exit(1);
  }
}
