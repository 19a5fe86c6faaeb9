// What the bundles hold, as a bill of materials in CycloneDX 1.6, made by its own tool from what esbuild says went into them.
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Spec, Validation } from '@cyclonedx/cyclonedx-library';
import { ROOT } from './steps.mjs';
import { compiledIn, licencesInFiles } from './third-party.mjs';

const tool = join(ROOT, 'node_modules', '@cyclonedx', 'cyclonedx-esbuild', 'bin', 'cyclonedx-esbuild-cli.js');

/**
 * @param {readonly { inputs: object, outputs: object }[]} metafiles
 * @param {string} file
 * @throws Error where the tool fails, or its bill does not fit the schema.
 */
export async function writeBill(metafiles, file) {
  mkdirSync(join(ROOT, '.cache'), { recursive: true });
  const folder = mkdtempSync(join(ROOT, '.cache', 'bill-'));
  try {
    const whole = {
      inputs: Object.assign({}, ...metafiles.map(({ inputs }) => inputs)),
      outputs: Object.assign({}, ...metafiles.map(({ outputs }) => outputs)),
    };
    writeFileSync(join(folder, 'meta.json'), JSON.stringify(whole));
    const made = join(folder, 'bill.json');
    const argv = [
      '--spec-version',
      '1.6',
      '--output-reproducible',
      '--validate',
      '-o',
      made,
      join(folder, 'meta.json'),
    ];
    execFileSync(process.execPath, [tool, ...argv], { cwd: ROOT, stdio: ['ignore', 'ignore', 'pipe'] });
    const bill = withCompiledParts(JSON.parse(readFileSync(made, 'utf8')));
    const text = `${JSON.stringify(bill, null, 2)}\n`;
    const wrong = await problemsOf(text);
    if (wrong) throw new Error(`the bill of materials does not fit its schema: ${JSON.stringify(wrong)}`);
    writeFileSync(file, text);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** What the schema of CycloneDX 1.6 has against a bill; null for nothing. */
export async function problemsOf(text) {
  return new Validation.JsonStrictValidator(Spec.Version.v1dot6).validate(text);
}

/** The tool knows packages by what they say of themselves; what is compiled into one, and a licence that stands in a file alone, is put in here. */
function withCompiledParts(bill) {
  for (const component of bill.components ?? []) {
    const said = licencesInFiles[component.name];
    if (said && !component.licenses?.length) component.licenses = [{ license: { id: said } }];
    const parts = compiledIn[component.group ? `${component.group}/${component.name}` : component.name];
    if (parts)
      component.components = parts.map(({ name, licence }) => ({
        type: 'library',
        'bom-ref': `${component['bom-ref']}|${name}`,
        name,
        licenses: [{ license: { id: licence } }],
      }));
  }
  return bill;
}
