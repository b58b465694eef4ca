// docker-compose.yml against the rules of the Compose specification (compose-spec/spec.md, read by hand): no test of
// this project starts a container.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SETTINGS } from '@slackwater/api/config';
import { projectRoot } from '@slackwater/tools/paths';
import { expect, test } from 'vitest';
import { parse } from 'yaml';

type Health = { test: string[]; interval: string; timeout: string; retries: number; start_period: string };
type Mount = { source: string; target: string };
type Service = {
  image?: string;
  build?: { context: string; dockerfile: string };
  command?: string[];
  environment?: Record<string, string>;
  depends_on?: Record<string, { condition: string }>;
  healthcheck?: Health;
  volumes?: string[];
  configs?: Mount[];
  secrets?: string[];
  ports?: string[];
};
type Compose = {
  name: string;
  services: Record<string, Service>;
  volumes: Record<string, unknown>;
  configs: Record<string, { content: string }>;
  secrets: Record<string, { file: string }>;
};

const compose: Compose = parse(readFileSync(join(projectRoot, 'docker-compose.yml'), 'utf8'));
const services = Object.entries(compose.services);
const dockerfile = readFileSync(join(projectRoot, 'apps/api/Dockerfile'), 'utf8');

test('only elements of the specification stand in it', () => {
  const top = ['name', 'services', 'volumes', 'configs', 'secrets', 'networks', 'include'];
  expect(Object.keys(compose).filter((key) => !top.includes(key))).toEqual([]);
  const ofService = [
    'image',
    'build',
    'command',
    'environment',
    'depends_on',
    'healthcheck',
    'volumes',
    'configs',
    'secrets',
    'ports',
    'restart',
    'init',
    'stop_grace_period',
  ];
  for (const [, service] of services) {
    expect(Object.keys(service).filter((key) => !ofService.includes(key))).toEqual([]);
    expect(service.image ?? service.build).toBeDefined();
  }
});

test('what a service uses is declared', () => {
  for (const [, { volumes = [], configs = [], secrets = [] }] of services) {
    for (const mount of volumes) expect(Object.keys(compose.volumes)).toContain(mount.split(':')[0]);
    for (const { source, target } of configs) {
      expect(Object.keys(compose.configs)).toContain(source);
      expect(target).toMatch(/^\//);
    }
    for (const secret of secrets) expect(Object.keys(compose.secrets)).toContain(secret);
  }
});

test('the record lies in a volume, and nothing else is lost with a container', () => {
  expect(compose.services.database?.volumes).toEqual(['record:/var/lib/postgresql']);
  expect(compose.volumes).toHaveProperty('record');
});

test('a service waits for what another one can say of itself', () => {
  for (const [, { depends_on = {} }] of services) {
    for (const [name, { condition }] of Object.entries(depends_on)) {
      expect(['service_healthy', 'service_completed_successfully']).toContain(condition);
      if (condition === 'service_healthy') expect(compose.services[name]?.healthcheck).toBeDefined();
      else expect(compose.services[name]?.command).toBeDefined();
    }
  }
  expect(Object.keys(compose.services.server?.depends_on ?? {})).toEqual(['database', 'migrate']);
});

test('database and server have a health check of the specified form', () => {
  for (const name of ['database', 'server']) {
    const health = compose.services[name]?.healthcheck;
    expect(health?.test[0]).toBe('CMD');
    for (const duration of [health?.interval, health?.timeout, health?.start_period]) {
      expect(duration).toMatch(/^(\d+(us|ms|s|m|h))+$/);
    }
    expect(health?.retries).toBeGreaterThan(0);
  }
  // the check is JavaScript for one command line: it has to parse
  expect(() => new Function('require', 'process', compose.services.server?.healthcheck?.test[3] ?? '')).not.toThrow();
});

test('every variable is chosen by the ward or has a default, and the owner is kept from the server', () => {
  const text = readFileSync(join(projectRoot, 'docker-compose.yml'), 'utf8');
  for (const [variable] of text.matchAll(/\$\{[^}]*\}/g)) expect(variable).toMatch(/^\$\{[A-Z_]+(:\?[^}]+|:-[^}]+)\}$/);
  expect(JSON.stringify(compose.services.server)).not.toMatch(/OWNER/);
});

test('server and migrate are given settings that exist', () => {
  for (const name of ['server', 'migrate']) {
    const names = Object.keys(compose.services[name]?.environment ?? {});
    expect(names.length).toBeGreaterThan(1);
    for (const setting of names) expect(Object.keys(SETTINGS)).toContain(setting);
  }
});

test('the roles are the ones the migrations grant to', () => {
  const made = [...(compose.configs.roles?.content ?? '').matchAll(/CREATE ROLE (\w+) LOGIN/g)].map(
    (match) => match[1],
  );
  expect(made).toEqual(['slackwater_owner', 'slackwater_app', 'slackwater_reader']);
});

test('the image copies folders that exist and starts node as an ordinary user', () => {
  const built = services.filter(([, { build }]) => build);
  expect(built.length).toBe(2);
  for (const [, { build }] of built) {
    expect(readFileSync(join(projectRoot, build?.context ?? '', build?.dockerfile ?? ''), 'utf8')).toBe(dockerfile);
  }
  expect(dockerfile).toMatch(/^USER node$/m);
  expect(dockerfile).toMatch(/^CMD \["node", "apps\/api\/src\/server\.ts"\]$/m);
  expect(() => readFileSync(join(projectRoot, 'apps/api/src/server.ts'))).not.toThrow();
});

test('no secret and no backup that lies beside the project goes into the image or its cache', () => {
  const kept = readFileSync(join(projectRoot, 'apps/api/Dockerfile.dockerignore'), 'utf8').split('\n');
  const readme = readFileSync(join(projectRoot, 'README.md'), 'utf8');
  const named = [...readme.matchAll(/^TLS_\w+_FILE=\.\/\S+(\.\w+)$/gm)].map(([, ending]) => `**/*${ending}`);
  expect(named).toHaveLength(2);
  for (const pattern of ['.git', '.data', '.env*', '**/*.backup', ...named]) expect(kept).toContain(pattern);
});
