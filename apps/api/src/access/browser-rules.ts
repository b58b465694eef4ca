import { createHash } from 'node:crypto';
import helmet from '@fastify/helmet';
import type { FastifyInstance } from 'fastify';

/**
 * The two inline styles that react-aria writes into the page, letter by letter: allowed by their hash, so that no
 * other inline style is. A test compares them with the installed package.
 */
export const INLINE_STYLES = [
  '@layer {\n  [data-react-aria-pressable] {\n    touch-action: pan-x pan-y pinch-zoom;\n  }\n}',
  '@layer {\n  * {\n    overscroll-behavior: contain;\n  }\n}',
];

const hashOf = (style: string) => `'sha256-${createHash('sha256').update(style).digest('base64')}'`;

/**
 * What browsers may do with our pages: scripts, styles and connections of this server alone, no frames, no referrer.
 * @param https over plain http on loopback nothing may be upgraded to https
 */
export async function ruleBrowsers(app: FastifyInstance, https: boolean) {
  await app.register(helmet, {
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'", ...INLINE_STYLES.map(hashOf)],
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
}
