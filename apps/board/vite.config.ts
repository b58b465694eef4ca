import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { precache } from './service-worker/precache.ts';

const api = process.env.SLACKWATER_API ?? 'http://127.0.0.1:4600';

export default defineConfig({
  plugins: [react(), precache()],
  build: {
    target: 'es2023',
    sourcemap: true,
    // The content security policy allows no inline data but images; a font of its own file is also cached on its own.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  // The API checks the origin of every write, so the proxy speaks with the API's own.
  server: { proxy: { '/api': { target: api, changeOrigin: true, headers: { origin: api } } } },
});
