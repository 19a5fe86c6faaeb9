import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { load } from 'js-yaml';
import { describe, expect, it } from 'vitest';
import * as z from 'zod/mini';
import { problemsOfWorkflow } from './workflow-parser.ts';

const root = join(import.meta.dirname, '..', '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

interface Workflow {
  readonly jobs: Record<string, { readonly steps: readonly { readonly uses?: string; readonly run?: string }[] }>;
}

describe('the workflows', () => {
  const folder = '.github/workflows';
  const workflows = [
    ...readdirSync(join(root, folder)).map((name) => `${folder}/${name}`),
    'docs/ci/github-actions.yml',
  ];

  it('are these', () => {
    expect(workflows).toEqual([`${folder}/check.yml`, `${folder}/release.yml`, 'docs/ci/github-actions.yml']);
  });

  it.each(workflows)('%s is one by GitHub’s own parser (@actions/workflow-parser)', async (path) =>
    expect(await problemsOfWorkflow(path, read(path))).toEqual([]),
  );

  it.each([
    ['runs-on:', 'run-on:'],
    ['needs: package', 'needs: packing'],
    ["startsWith(github.ref_name, 'v0.')", 'startsWith(github.ref_name'],
    ['contents: write', 'contents: scribble'],
  ])('one with a slip is told: %s as %s', async (from, to) => {
    const text = read(`${folder}/release.yml`);
    expect(text).toContain(from);
    expect(await problemsOfWorkflow('release.yml', text.replace(from, to))).not.toEqual([]);
  });

  it.each(workflows)('%s runs what there is, and reads no secret but one', (path) => {
    const text = read(path);
    const steps = Object.values((load(text) as Workflow).jobs).flatMap((job) => job.steps);
    for (const [, name = ''] of text.matchAll(/npm run (?:--?\S+ )*([\w:]+)/g)) expect(scripts).toHaveProperty(name);
    expect(text.match(/secrets\.\w+/g) ?? []).toEqual(path.endsWith('release.yml') ? ['secrets.VSCE_PAT'] : []);
    // What is not GitHub's own is none of ours to trust with a checkout.
    for (const { uses } of steps) if (uses !== undefined) expect(uses).toMatch(/^(?:actions|github)\/[\w/-]+@v\d+$/);
    // A text that somebody else writes, such as a branch's name, never becomes part of a command.
    for (const { run } of steps) expect(run ?? '').not.toContain('${{');
  });
});

const words = z.string().check(z.regex(/\S/));
const field = <T extends string, A extends z.core.$ZodLooseShape>(type: T, attributes: A, required = true) =>
  z.strictObject({
    type: z.literal(type),
    id: z.string().check(z.regex(/^[\w-]+$/)),
    attributes: z.strictObject({ label: words, description: z.optional(words), ...attributes }),
    ...(required ? { validations: z.optional(z.strictObject({ required: z.boolean() })) } : {}),
  });
const chosen = <T extends z.ZodMiniType>(one: T) => z.array(one).check(z.minLength(1));

/**
 * The syntax of a form by GitHub's pages *Syntax for issue forms*, *Syntax for GitHub's form schema* and *Common validation errors
 * when creating issue forms*, written down by hand, as no package of the registry has it; each field has an id here.
 */
const issueForm = z.strictObject({
  name: words,
  description: words,
  title: z.optional(words),
  labels: z.optional(chosen(words)),
  assignees: z.optional(chosen(words)),
  body: chosen(
    z.union([
      z.strictObject({ type: z.literal('markdown'), attributes: z.strictObject({ value: words }) }),
      field('input', { placeholder: z.optional(words), value: z.optional(words) }),
      field('textarea', { placeholder: z.optional(words), value: z.optional(words), render: z.optional(words) }),
      field('dropdown', { multiple: z.optional(z.boolean()), options: chosen(words) }),
      field(
        'checkboxes',
        { options: chosen(z.strictObject({ label: words, required: z.optional(z.boolean()) })) },
        false,
      ),
    ]),
  ),
});

type IssueForm = z.infer<typeof issueForm>;

/** What the shape cannot say. */
function slipsOf({ body }: IssueForm): string[] {
  const fields = body.flatMap((one) => (one.type === 'markdown' ? [] : [one]));
  const options = fields.map((one) =>
    'options' in one.attributes
      ? (one.attributes.options as readonly (string | { label: string })[]).map((each) =>
          typeof each === 'string' ? each : each.label,
        )
      : [],
  );
  const twice = (list: readonly string[]): string[] => list.filter((one, at) => list.indexOf(one) !== at);
  return [
    ...(fields.length === 0 ? ['nothing is asked'] : []),
    ...[fields.map(({ id }) => id), fields.map(({ attributes }) => attributes.label), ...options].flatMap(twice),
    ...options.flat().filter((one) => /^(?:none|y|yes|n|no|on|off|true|false)$/i.test(one)),
  ];
}

describe('the forms of an issue', () => {
  const folder = '.github/ISSUE_TEMPLATE';
  const names = readdirSync(join(root, folder)).filter((name) => name !== 'config.yml');
  const form = (name: string): unknown => load(read(`${folder}/${name}`));

  it('are for a wrong number, a fault, a wish and a value with its source', () => {
    expect(names.sort()).toEqual(['fault.yml', 'value-with-source.yml', 'wish.yml', 'wrong-number.yml']);
    expect(load(read(`${folder}/config.yml`))).toEqual({ blank_issues_enabled: false });
  });

  it.each(names)('%s is a form', (name) => {
    expect(slipsOf(issueForm.parse(form(name)))).toEqual([]);
  });

  it.each([
    ['a key that there is not', { hello: 'world' }],
    ['a name that is no text', { name: true }],
    ['a field of a kind that there is not', { body: [{ type: 'slider', id: 'a', attributes: { label: 'A' } }] }],
    ['a field without its label', { body: [{ type: 'input', id: 'a', attributes: {} }] }],
    ['nothing in it', { body: [] }],
  ])('one with %s is told', (_what, change) => {
    expect(issueForm.safeParse({ ...(form('fault.yml') as object), ...change }).success).toBe(false);
  });

  it('one that asks nothing, or twice the same, is told', () => {
    const asked = issueForm.parse(form('fault.yml'));
    expect(slipsOf({ ...asked, body: [...asked.body, ...asked.body] })).not.toEqual([]);
    expect(slipsOf({ ...asked, body: asked.body.filter(({ type }) => type === 'markdown') })).not.toEqual([]);
  });

  it('ask nobody for a real case', () => {
    for (const name of ['fault.yml', 'wrong-number.yml']) {
      const boxes = issueForm.parse(form(name)).body.flatMap((one) => (one.type === 'checkboxes' ? [one] : []));
      expect(boxes.flatMap(({ attributes }) => attributes.options)).toContainEqual({
        label: 'Nothing here points to a real animal, person or practice.',
        required: true,
      });
    }
  });
});

describe('the pages beside the code', () => {
  const pages = ['CONTRIBUTING.md', 'SECURITY.md', 'CODE_OF_CONDUCT.md', '.github/PULL_REQUEST_TEMPLATE.md'];

  it.each(pages)('%s gives no address of ours, as there is none', (path) => {
    expect(existsSync(join(root, path))).toBe(true);
    expect(read(path)).not.toMatch(/[\w.]+@[\w.]+\.\w+|https?:\/\//);
  });

  it('name the scripts that there are', () => {
    const named = pages.flatMap((path) => [...read(path).matchAll(/`npm (?:run )?([\w:]+)`/g)].map(([, name]) => name));
    expect(named.length).toBeGreaterThan(2);
    for (const name of named) expect(scripts).toHaveProperty(name ?? '');
  });
});
