import swagger from '@fastify/swagger';
import { problemDocument } from '@slackwater/contract';
import type { FastifyInstance } from 'fastify';
import { jsonSchemaTransform, jsonSchemaTransformObject } from 'fastify-type-provider-zod';

const PROBLEM = {
  description: 'Any failure: problem details (RFC 9457)',
  content: { 'application/problem+json': { schema: problemDocument } },
};

/** Describes every route registered after this, from the schemas that check its requests. */
export async function describeRoutes(app: FastifyInstance) {
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.0',
      info: {
        title: 'Slackwater',
        version: '0.1.0',
        description:
          'Unit dashboard and bedside record for a ward that gives manual peritoneal dialysis. Instants are whole ' +
          'milliseconds since 1970-01-01T00:00:00Z; volumes are mL. Not a certified medical device.',
      },
      components: {
        securitySchemes: {
          session: { type: 'apiKey', in: 'cookie', name: '__Host-slackwater', description: 'Set by POST /api/sign-in' },
        },
      },
    },
    transform: (document) => {
      const { url } = document;
      if (!url.startsWith('/api/')) return { schema: { hide: true }, url };
      const isPublic = document.route.config?.access === 'public';
      const schema = {
        security: isPublic ? [] : [{ session: [] }],
        ...document.schema,
        response: { ...(document.schema?.response as object | undefined), default: PROBLEM },
      };
      return jsonSchemaTransform({ ...document, schema } as typeof document);
    },
    transformObject: jsonSchemaTransformObject,
  });
}

type Described = { paths?: object; components?: { schemas?: Record<string, object> } };

/** Every schema is registered twice, as it is sent and as it is answered; what no route speaks of is left out. */
function withoutUnused(document: Described): Described {
  const schemas = document.components?.schemas ?? {};
  const used = new Set<string>();
  const follow = (part: object | undefined): void => {
    for (const [, name = ''] of JSON.stringify(part ?? {}).matchAll(/"#\/components\/schemas\/([^"]+)"/g)) {
      if (used.has(name)) continue;
      used.add(name);
      follow(schemas[name]);
    }
  };
  follow(document.paths);
  const kept = Object.fromEntries(Object.entries(schemas).filter(([name]) => used.has(name)));
  return { ...document, components: { ...document.components, schemas: kept } };
}

/** The API's description as it stands in `shared/openapi.json`. Call after `app.ready()`. */
export const openApiText = (app: FastifyInstance): string =>
  `${JSON.stringify(withoutUnused(app.swagger() as Described), null, 2)}\n`;
