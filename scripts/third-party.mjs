// The licences of the packages that a bundle holds, collected from what esbuild says went into it.
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/**
 * @param {readonly { inputs: Record<string, unknown> }[]} metafiles
 * @param {string} file
 */
export function writeNotices(metafiles, file) {
  const folders = new Set();
  for (const { inputs } of metafiles)
    for (const path of Object.keys(inputs)) {
      const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(path);
      if (found?.[1]) folders.add(found[1]);
    }
  const notices = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    const text = readdirSync(folder).find((entry) => /^(?:licen[cs]e|copying)(?:\.|$|-)/i.test(entry));
    const body =
      text && existsSync(join(folder, text)) ? readFileSync(join(folder, text), 'utf8').trim() : `Licence: ${license}`;
    return `${name} ${version} (${license})\n\n${body}`;
  });
  writeFileSync(file, `Ungula holds code of these packages.\n\n${notices.join(`\n\n${'-'.repeat(78)}\n\n`)}\n`);
}
