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

/** The API's description as it stands in `shared/openapi.json`. Call after `app.ready()`. */
export const openApiText = (app: FastifyInstance): string => `${JSON.stringify(app.swagger(), null, 2)}\n`;
