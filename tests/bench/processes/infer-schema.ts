type JsonSchema = {
  type: string | string[];
  properties?: Record<string, JsonSchema>;
  items?: JsonSchema;
};

/** The JSON Schema that all samples keep, as fast-json-stringify likes it: types and properties, no alternatives. */
export function schemaOf(samples: readonly unknown[]): JsonSchema {
  const known = samples.filter((sample) => sample !== null && sample !== undefined);
  const isNullable = known.length < samples.length;
  const type = typeOf(known);
  const schema: JsonSchema = { type: isNullable && type !== 'null' ? [type, 'null'] : type };
  if (type === 'array') schema.items = schemaOf((known as unknown[][]).flat());
  if (type === 'object') {
    const all = known as Record<string, unknown>[];
    const names = new Set(all.flatMap((one) => Object.keys(one)));
    schema.properties = Object.fromEntries(
      [...names].map((name) => [name, schemaOf(all.filter((one) => name in one).map((one) => one[name]))]),
    );
  }
  return schema;
}

function typeOf(known: readonly unknown[]): string {
  const [first] = known;
  if (first === undefined) return 'null';
  if (Array.isArray(first)) return 'array';
  return typeof first;
}
