import { readFileSync } from 'node:fs';
import { jsonSchemas } from '../../scripts/json-schemas.ts';
import { codes } from '../../shared/findings/catalogue.ts';
import { courseCsv } from '../../shared/export/course-csv.ts';
import { commands } from '../../src/cli/command-line.ts';
import { columns } from '../../src/cli/measure.ts';

/** What scripts and other programs may rely on, a line each: docs/versions.md. A later version may add to it. */
export interface Promises {
  readonly codes: readonly string[];
  readonly commands: readonly string[];
  /** Keys of what is printed as JSON, with their types. */
  readonly json: readonly string[];
  /** Columns of what is printed as CSV, each at its place. */
  readonly csv: readonly string[];
  /** Settings of the editor, and commands that may be bound to keys. */
  readonly editor: readonly string[];
}

interface Schema {
  readonly title?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly additionalProperties?: Schema | boolean;
  readonly items?: Schema | readonly Schema[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly $ref?: string;
}

export function promisesNow(): Promises {
  return {
    codes: codes.map(({ code }) => code).sort(),
    commands: commands.flatMap(({ name, options }) => [name, ...Object.keys(options).map((one) => `${name} --${one}`)]),
    json: [...jsonSchemas().values()].flatMap((text) => {
      const schema = JSON.parse(text) as Schema;
      const command = /ungula (\S+)/.exec(schema.title ?? '')?.[1] ?? '';
      return keysOf(schema, command);
    }),
    csv: [...atPlaces('course', courseCsv([]).trim().split(',')), ...atPlaces('measure', columns)],
    editor: [
      ...Object.keys(contributes.configuration.properties),
      ...contributes.commands.map(({ command }) => command),
    ],
  };
}

const {
  contributes,
}: {
  contributes: { configuration: { properties: object }; commands: readonly { command: string }[] };
} = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));

const atPlaces = (command: string, names: readonly string[]): string[] =>
  names.map((name, at) => `${command}: column ${at + 1} ${name}`);

/** A key that may be left out, or be of another type than before, breaks a program that reads it: so each is a line of its own. */
function keysOf(schema: Schema, at: string): string[] {
  const own = Object.entries(schema.properties ?? {}).flatMap(([key, one]) => [
    `${at}.${key}: ${typesOf(one).join(' or ')}`,
    ...(schema.required?.includes(key) ? [`${at}.${key} is always there`] : []),
    ...keysOf(one, `${at}.${key}`),
  ]);
  const items = schema.items === undefined ? [] : [schema.items].flat();
  return [
    ...new Set([
      ...own,
      ...items.flatMap((one) => keysOf(one, `${at}[]`)),
      ...[...(schema.anyOf ?? []), ...(schema.oneOf ?? [])].flatMap((one) => keysOf(one, at)),
      ...(typeof schema.additionalProperties === 'object' ? keysOf(schema.additionalProperties, `${at}{}`) : []),
    ]),
  ];
}

function typesOf(schema: Schema): string[] {
  const choices = [...(schema.anyOf ?? []), ...(schema.oneOf ?? [])];
  if (choices.length > 0) return [...new Set(choices.flatMap(typesOf))].sort();
  if (schema.const !== undefined) return [JSON.stringify(schema.const)];
  if (schema.type !== undefined) return [schema.type].flat().sort();
  return [...new Set((schema.enum ?? []).map((one) => typeof one))].sort();
}
