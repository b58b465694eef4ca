import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { stripTypeScriptTypes } from 'node:module';
import type { Plugin } from 'vite';

/** Files of `public/` that the shell needs; the page itself stands for every address of the browser's router. */
const PUBLIC = ['/', '/mark.svg', '/manifest.webmanifest'];

/** Writes the service worker beside the page, with the list of this build's files in front of it. */
export const precache = (): Plugin => ({
  name: 'slackwater-precache',
  apply: 'build',
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const built = Object.keys(bundle).filter((file) => !/\.(map|html|woff)$/.test(file));
      const files = [...PUBLIC, ...built.sort().map((file) => `/${file}`)];
      const code = stripTypeScriptTypes(readFileSync(new URL('service-worker.ts', import.meta.url), 'utf8'));
      const build = createHash('sha256').update(JSON.stringify(files)).update(code).digest('hex').slice(0, 16);
      const head = `const BUILD = ${JSON.stringify(build)};\nconst FILES = ${JSON.stringify(files)};\n`;
      this.emitFile({ type: 'asset', fileName: 'service-worker.js', source: head + code });
    },
  },
});
