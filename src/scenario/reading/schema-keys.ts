/**
 * What the schema knows at a place: the keys of a group, found by walking the schema the way the place walks
 * the file.
 */
import { z } from '../../zod.ts';
import type { Place } from './fault.ts';

type Schema = z.core.$ZodType;

/** The schema without "may be left out" and "may be null" around it. */
function bare(schema: Schema): Schema {
  let inner = schema;
  while (inner instanceof z.ZodOptional || inner instanceof z.ZodNullable) inner = inner.unwrap();
  return inner;
}

/** Every schema that may stand where `schema` does: the branches of a union, or itself. */
function branches(schema: Schema): Schema[] {
  const inner = bare(schema);
  return inner instanceof z.ZodUnion ? inner.options.flatMap((one: Schema) => branches(one)) : [inner];
}

function step(schema: Schema, key: string | number): Schema[] {
  return branches(schema).flatMap((one): Schema[] => {
    if (one instanceof z.ZodObject) {
      const shape: Record<string, Schema> = one.shape;
      return Object.hasOwn(shape, key) ? [shape[key]!] : [];
    }
    if (one instanceof z.ZodRecord) return [one.valueType];
    if (one instanceof z.ZodArray) return [one.element];
    return [];
  });
}

/** The groups that may stand at `place`, each as the list of its keys. */
export function keysAt(schema: Schema, place: Place): string[][] {
  let here: Schema[] = [schema];
  for (const key of place) here = here.flatMap((one) => step(one, key));
  return here
    .flatMap(branches)
    .flatMap((one) => (one instanceof z.ZodObject ? [Object.keys(one.shape)] : []));
}
