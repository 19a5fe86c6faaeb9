import { Document, isPair, isScalar, visit } from 'yaml';
import * as z from 'zod/mini';
import { parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { caseRecordSchema } from '../../shared/record/schema.ts';

/** Where a thing stands in the file, and what follows from what is written: no peer is given these to read. */
const isPlace = (key: string): boolean => /^(?:at|head|start|line|base|.+At)$/.test(key);

/** A wrapper that only added a place is taken off. */
const wrappers = ['is', 'text', 'value'] as const;

/** The facts of a case and nothing else: its record without places, without what is not said, without wrappers. */
export function factsOf(text: string): unknown {
  return bare(assemble(parse(text)).record);
}

function bare(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(bare);
  if (typeof value !== 'object' || value === null) return value;
  const kept = Object.entries(value).filter(
    ([key, inner]) => !isPlace(key) && inner !== null && !(Array.isArray(inner) && inner.length === 0),
  );
  const [[key, only] = ['', null]] = kept;
  if (kept.length === 1 && isWrapper(key)) return bare(only);
  return Object.fromEntries(kept.map(([name, inner]) => [name, bare(inner)]));
}

/** The facts as a person would write them in YAML: what has only plain values stands on one line. */
export function factsInYaml(text: string): string {
  const document = new Document(factsOf(text));
  visit(document, {
    Map(_, node) {
      if (node.items.every((pair) => isPair(pair) && isScalar(pair.value))) node.flow = true;
    },
    Seq(_, node) {
      if (node.items.every((item) => isScalar(item))) node.flow = true;
    },
  });
  return document.toString({ lineWidth: 0 });
}

const isWrapper = (key: string): boolean => (wrappers as readonly string[]).includes(key);

type Json = Record<string, unknown>;

/** The JSON schema of `factsOf`, from the schema of the record. */
export function factsSchema(): Json {
  return bareSchema(z.toJSONSchema(caseRecordSchema, { target: 'draft-7' }) as Json);
}

function bareSchema(schema: Json): Json {
  if (Array.isArray(schema['type'])) return { ...schema, type: schema['type'].find((one) => one !== 'null') };
  const either = (schema['anyOf'] ?? schema['oneOf']) as Json[] | undefined;
  if (either) {
    const said = either.filter(({ type }) => type !== 'null').map(bareSchema);
    return said.length === 1 ? (said[0] as Json) : { anyOf: said };
  }
  if (schema['type'] === 'array') return { ...schema, items: bareSchema(schema['items'] as Json) };
  if (schema['type'] !== 'object') return schema;
  const properties = Object.entries(schema['properties'] as Record<string, Json>).filter(([key]) => !isPlace(key));
  const [[key, only] = ['', {}]] = properties;
  if (properties.length === 1 && isWrapper(key)) return bareSchema(only);
  return {
    ...schema,
    properties: Object.fromEntries(properties.map(([name, inner]) => [name, bareSchema(inner)])),
    // What need not be said is left out of the facts.
    required: properties.filter(([, inner]) => !mayLack(inner)).map(([name]) => name),
  };
}

function mayLack(schema: Json): boolean {
  const { type, anyOf } = schema as { type?: unknown; anyOf?: Json[] };
  return (
    type === 'array' || type === 'null' || (Array.isArray(type) && type.includes('null')) || !!anyOf?.some(mayLack)
  );
}
