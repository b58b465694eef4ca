import helmet from '@fastify/helmet';
import Fastify, { type FastifyInstance } from 'fastify';

/** As headers. */
export type BrowserRules = Readonly<Record<string, string>>;

/**
 * What browsers may do with our pages: scripts, styles and connections of this server alone, no frames, no referrer.
 * The rules are the same for every answer, so they are worked out once: made anew for each they cost as much as the rest
 * of a short answer.
 * @param https over plain http on loopback nothing may be upgraded to https
 * @returns the rules, for what answers without the framework
 */
export async function ruleBrowsers(app: FastifyInstance, https: boolean): Promise<BrowserRules> {
  const rules = await rulesAsHeaders(https);
  app.addHook('onRequest', (_, reply, done) => {
    reply.headers(rules);
    done();
  });
  return rules;
}

/** As helmet sets them on an answer of a server that does nothing else. */
async function rulesAsHeaders(https: boolean): Promise<BrowserRules> {
  const example = Fastify();
  await example.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        fontSrc: ["'self'"],
        imgSrc: ["'self'", 'data:'],
        connectSrc: ["'self'"],
        workerSrc: ["'self'"],
        manifestSrc: ["'self'"],
        baseUri: ["'none'"],
        formAction: ["'self'"],
        frameAncestors: ["'none'"],
        upgradeInsecureRequests: https ? [] : null,
      },
    },
    hsts: https ? { maxAge: 31_536_000, includeSubDomains: false } : false,
    referrerPolicy: { policy: 'no-referrer' },
    crossOriginResourcePolicy: { policy: 'same-origin' },
    xFrameOptions: { action: 'deny' },
  });
  let rules: Record<string, string> = {};
  example.get('/', async (_, reply) => {
    rules = { ...(reply.raw.getHeaders() as Record<string, string>) };
  });
  await example.inject('/');
  await example.close();
  return rules;
}
