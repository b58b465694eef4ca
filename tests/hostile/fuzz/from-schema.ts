import { randomUUID } from 'node:crypto';
import type { Chance } from '@slackwater/api/demo/chance';

// biome-ignore lint/suspicious/noExplicitAny: a JSON schema and what is made from it have any form
type Json = any;

/** Something that a schema of the API's description takes, or nearly: what a pattern wants is not always met. */
export function fromSchema(schema: Json, all: Json, chance: Chance, depth = 0): Json {
  const one = (list: readonly Json[]) => list[Math.floor(chance.unit() * list.length)];
  if (schema === undefined || depth > 8) return null;
  if (schema.$ref) return fromSchema(all.components.schemas[schema.$ref.split('/').at(-1)], all, chance, depth + 1);
  const some = schema.anyOf ?? schema.oneOf;
  if (some) return fromSchema(one(some), all, chance, depth + 1);
  if (schema.allOf)
    return Object.assign({}, ...schema.allOf.map((part: Json) => fromSchema(part, all, chance, depth + 1)));
  if ('const' in schema) return schema.const;
  if (schema.enum) return one(schema.enum);
  switch (Array.isArray(schema.type) ? one(schema.type) : schema.type) {
    case 'object': {
      const parts = Object.entries(schema.properties ?? {}).map(([key, part]) => [
        key,
        fromSchema(part, all, chance, depth + 1),
      ]);
      return Object.fromEntries(parts);
    }
    case 'array':
      return Array.from({ length: Math.max(schema.minItems ?? 1, 1) }, () =>
        fromSchema(schema.items, all, chance, depth + 1),
      );
    case 'integer':
    case 'number':
      return Math.ceil(schema.minimum ?? schema.exclusiveMinimum ?? 1);
    case 'string':
      return schema.format === 'uuid' ? randomUUID() : 'x'.repeat(Math.max(schema.minLength ?? 1, 1));
    case 'boolean':
      return chance.unit() < 0.5;
    default:
      return null;
  }
}

/** What a careless or a hostile client puts where something else belongs. */
export const HOSTILE: readonly Json[] = [
  null,
  true,
  -1,
  0,
  0.5,
  99_999,
  1e308,
  Number.MAX_SAFE_INTEGER + 2,
  -8.64e15 - 1,
  '',
  ' ',
  '2e3',
  '2,000',
  '2.000',
  '\u0000',
  '\ud800',
  'a\u202eb',
  '\r\nset-cookie: x=y',
  '__proto__',
  'constructor',
  "' OR 1=1 --",
  '<script>alert(1)</script>',
  '=cmd()',
  '../../../etc/passwd',
  '00000000-0000-0000-0000-000000000000',
  'x'.repeat(70_000),
  [],
  {},
  [[[[[[[[]]]]]]]],
  { toString: 1 },
];

/** A copy with one place of it changed: replaced, left out, or given a key too many. */
export function mutated(value: Json, chance: Chance): Json {
  const copy = structuredClone(value);
  const places: { holder: Json; key: string }[] = [];
  const walk = (holder: Json) => {
    if (typeof holder !== 'object' || holder === null) return;
    for (const key of Object.keys(holder)) {
      places.push({ holder, key });
      walk(holder[key]);
    }
  };
  walk(copy);
  const hostile = HOSTILE[Math.floor(chance.unit() * HOSTILE.length)];
  const place = places[Math.floor(chance.unit() * places.length)];
  if (place === undefined || chance.unit() < 0.05) return hostile;
  const how = chance.unit();
  if (how < 0.15) delete place.holder[place.key];
  else if (how < 0.25) place.holder[`${place.key}x`] = hostile;
  else place.holder[place.key] = hostile;
  return copy;
}
