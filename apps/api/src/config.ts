import { isIP } from 'node:net';
import { resolve } from 'node:path';
import type { Where } from '@slackwater/tools/database';
import { defaultDataFolder, projectRoot } from '@slackwater/tools/paths';
import { z } from 'zod';
import type { Hooks } from './alarms/hooks/hook.ts';
import { isOnThisMachine, readHooks } from './alarms/hooks/read-hooks.ts';

/** One setting of the process: what it means, what holds without it, what it costs to get wrong. */
type Setting = { meaning: string; byDefault: string; misuse: string };

/** Every environment variable that is read, and the only place where they are. README shows this table. */
export const SETTINGS = {
  PORT: {
    meaning: 'TCP port of the board and its API, 1 to 65535',
    byDefault: '4600',
    misuse: 'A taken port is refused at start, before the database is touched.',
  },
  HOST: {
    meaning: 'Address to listen on',
    byDefault: '127.0.0.1 (this machine alone)',
    misuse:
      'Any other address is refused without TLS_CERT and TLS_KEY, or TRUST_PROXY: passwords would travel in the clear.',
  },
  TLS_CERT: {
    meaning: 'File of the certificate chain (PEM); together with TLS_KEY',
    byDefault: 'none: plain HTTP on loopback',
    misuse: 'A wrong or expired certificate locks every tablet out.',
  },
  TLS_KEY: {
    meaning: 'File of the private key (PEM); together with TLS_CERT',
    byDefault: 'none',
    misuse: 'Keep it readable by this account alone.',
  },
  TRUST_PROXY: {
    meaning: 'Addresses of the reverse proxies that end TLS in front, separated by commas',
    byDefault: 'none',
    misuse:
      'An address that is no proxy of yours may then claim to be anybody: attempt limits and the audit trail would believe it.',
  },
  DATABASE_URL: {
    meaning: 'PostgreSQL 18 of your own, as the role slackwater_app; direct or session-pooled',
    byDefault: 'none: an embedded PostgreSQL 18 in SLACKWATER_DATA',
    misuse:
      'Refused as superuser or owner: the record could be changed. A transaction pooler breaks LISTEN and is refused at start.',
  },
  DATABASE_OWNER_URL: {
    meaning: 'The same database as the role slackwater_owner: for migrate, restore and erase only',
    byDefault: 'none: the server then migrates nothing',
    misuse: 'Leave it out of the running server where migrations are run apart.',
  },
  SLACKWATER_DATA: {
    meaning: 'Folder of the embedded database',
    byDefault: '.data in the project, for the demonstration only',
    misuse:
      'Without the demonstration a folder inside the project is refused: cleaning the checkout would delete the record.',
  },
  SLACKWATER_DEMO: {
    meaning: '1: seed the demonstration (invented ward); 0: never',
    byDefault: '1 with the embedded database on loopback without TLS or a proxy, else 0',
    misuse: 'Demonstration accounts have a published password; refused on any address but loopback.',
  },
  SLACKWATER_SITE: {
    meaning: 'Id of the hospital in the database: lower-case letters, digits, hyphens',
    byDefault: 'alder-point with the demonstration, else hospital',
    misuse: 'Another id opens another, empty hospital in the same database.',
  },
  SLACKWATER_SITE_NAME: {
    meaning: 'Name of the hospital, when it is opened for the first time',
    byDefault: 'Hospital',
    misuse: 'Shown on every screen.',
  },
  SLACKWATER_ADMIN: {
    meaning: 'First administrator as login:password (12 characters at least); read only while there is none',
    byDefault: 'none: a one-time link is printed at start',
    misuse: 'Take it out of the environment after the first start.',
  },
  SLACKWATER_HOOKS: {
    meaning:
      'Paging systems that are told of alerts: entries apart by ;, each an https:// address, its secret (whsec_ and base64) and ranks as high,medium (high without)',
    byDefault: 'none: nobody outside the ward is told',
    misuse:
      'Whoever has the secret can forge pages. An address that is not yours learns beds and kinds of alerts. It replaces no alarm of its own: a pager may be off. With the demonstration only this machine may be told.',
  },
  SLACKWATER_HOOKS_INSIDE: {
    meaning:
      "Addresses or ranges of the hospital's own network to which SLACKWATER_HOOKS may be sent, separated by commas",
    byDefault: 'none: public addresses alone',
    misuse: 'A wide range lets a name that somebody else controls lead the server to machines of the network.',
  },
  LOG_LEVEL: {
    meaning: 'fatal, error, warn, info, debug, trace or silent',
    byDefault: 'warn',
    misuse: 'debug and trace fill a disk; names and passwords are redacted at every level.',
  },
} as const satisfies Record<string, Setting>;

export type SettingName = keyof typeof SETTINGS;

export type Config = {
  port: number;
  host: string;
  tls: { certFile: string; keyFile: string } | null;
  trustProxy: readonly string[] | null;
  where: Where;
  demonstration: boolean;
  site: { id: string; name: string };
  firstAdministrator: { login: string; password: string } | null;
  logLevel: string;
  hooks: Hooks;
};

const text = z.string().min(1).optional();
/** An address, or a range of them. */
function isAddress(text: string): boolean {
  const [address = '', bits, ...more] = text.trim().split('/');
  const version = isIP(address);
  if (version === 0 || more.length > 0) return false;
  return (
    bits === undefined || (/^\d{1,3}$/.test(bits) && Number(bits) >= 1 && Number(bits) <= (version === 4 ? 32 : 128))
  );
}

const postgresUrl = z.url({ protocol: /^postgres(ql)?$/, error: 'a postgresql:// address' }).optional();
const schema = z.object({
  PORT: z
    .string()
    .regex(/^\d{1,5}$/, '1 to 65535')
    .transform(Number)
    .refine((port) => port >= 1 && port <= 65_535, '1 to 65535')
    .default(4600),
  HOST: z
    .string()
    .refine((host) => host === 'localhost' || isIP(host) !== 0, 'an IP address or localhost')
    .default('127.0.0.1'),
  TLS_CERT: text,
  TLS_KEY: text,
  TRUST_PROXY: z
    .string()
    .refine((list) => list.split(',').every(isAddress), 'IP addresses, or ranges as 10.0.0.0/8, separated by commas')
    .optional(),
  DATABASE_URL: postgresUrl,
  DATABASE_OWNER_URL: postgresUrl,
  SLACKWATER_DATA: text,
  SLACKWATER_DEMO: z.enum(['0', '1'], { error: '0 or 1' }).optional(),
  SLACKWATER_SITE: z
    .string()
    .regex(/^[a-z0-9][a-z0-9-]{0,39}$/, '1 to 40 lower-case letters, digits, hyphens')
    .optional(),
  SLACKWATER_SITE_NAME: z.string().min(1).max(120).default('Hospital'),
  SLACKWATER_ADMIN: z
    .string()
    .regex(/^[a-z0-9][a-z0-9.-]{1,59}:.{12,200}$/s, 'login:password, the password of 12 characters at least')
    .optional(),
  SLACKWATER_HOOKS: text,
  SLACKWATER_HOOKS_INSIDE: z
    .string()
    .refine((list) => list.split(',').every(isAddress), 'IP addresses, or ranges as 10.0.0.0/8, separated by commas')
    .optional(),
  LOG_LEVEL: z.enum(['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent']).default('warn'),
});

type Environment = Readonly<Record<string, string | undefined>>;

/** What is wrong with the environment, one sentence a setting. */
export class ConfigError extends Error {}

/**
 * Reads and checks the whole configuration.
 * @throws ConfigError naming every setting that cannot be, its value (never a secret) and what is allowed
 */
export function readConfig(environment: Environment): Config {
  const given = Object.fromEntries(Object.keys(SETTINGS).map((name) => [name, environment[name] || undefined]));
  const parsed = schema.safeParse(given);
  if (!parsed.success) {
    const lines = parsed.error.issues.map((issue) => {
      const name = String(issue.path[0]);
      return `${name}=${shown(name, environment[name])} is not possible: ${issue.message}.`;
    });
    throw new ConfigError(lines.join('\n'));
  }
  return judged(parsed.data);
}

const SECRET = /URL|ADMIN|KEY|HOOKS$/;
const shown = (name: string, value: string | undefined) => (SECRET.test(name) ? '…' : (value ?? ''));

const isLoopback = (host: string): boolean => host === 'localhost' || host === '::1' || host.startsWith('127.');

function judged(env: z.infer<typeof schema>): Config {
  const refuse = (sentence: string): never => {
    throw new ConfigError(sentence);
  };
  if ((env.TLS_CERT === undefined) !== (env.TLS_KEY === undefined))
    refuse('TLS_CERT and TLS_KEY are given together or not at all.');
  const tls = env.TLS_CERT && env.TLS_KEY ? { certFile: env.TLS_CERT, keyFile: env.TLS_KEY } : null;
  const trustProxy = env.TRUST_PROXY?.split(',').map((address) => address.trim()) ?? null;
  const onLoopback = isLoopback(env.HOST);
  if (!onLoopback && !tls && !trustProxy) {
    refuse(
      `HOST=${env.HOST} is not loopback: give TLS_CERT and TLS_KEY, or TRUST_PROXY with the address of the proxy that ends TLS.`,
    );
  }
  if (env.DATABASE_OWNER_URL && !env.DATABASE_URL) refuse('DATABASE_OWNER_URL is given without DATABASE_URL.');

  const inside = env.SLACKWATER_HOOKS_INSIDE?.split(',').map((address) => address.trim()) ?? [];
  const hooks = readHooks(env.SLACKWATER_HOOKS ?? '', inside);
  if ('fault' in hooks) return refuse(`SLACKWATER_HOOKS=… is not possible: ${hooks.fault}.`);

  const forOthers = !onLoopback || tls !== null || trustProxy !== null;
  const demonstration = env.SLACKWATER_DEMO ? env.SLACKWATER_DEMO === '1' : !env.DATABASE_URL && !forOthers;
  if (demonstration && !onLoopback)
    refuse(`SLACKWATER_DEMO=1 is refused with HOST=${env.HOST}: demonstration accounts have a published password.`);
  if (demonstration && (trustProxy || tls))
    refuse('SLACKWATER_DEMO=1 is refused with TLS or TRUST_PROXY: demonstration accounts have a published password.');

  const beyond = hooks.hooks.find(({ url }) => !isOnThisMachine(url));
  if (demonstration && beyond)
    refuse(
      `SLACKWATER_HOOKS to ${beyond.url} is refused with the demonstration: invented alerts would page real people.`,
    );

  const folder = resolve(env.SLACKWATER_DATA ?? defaultDataFolder);
  if (!env.DATABASE_URL && !demonstration && `${folder}/`.startsWith(`${projectRoot}/`)) {
    refuse(
      `SLACKWATER_DATA=${folder} lies inside the project, where cleaning the checkout would delete the record: name a folder outside it.`,
    );
  }
  return {
    port: env.PORT,
    host: env.HOST,
    tls,
    trustProxy,
    where: env.DATABASE_URL
      ? { kind: 'outside', appUrl: env.DATABASE_URL, ownerUrl: env.DATABASE_OWNER_URL ?? null }
      : { kind: 'embedded', folder },
    demonstration,
    site: {
      id: env.SLACKWATER_SITE ?? (demonstration ? 'alder-point' : 'hospital'),
      name: demonstration && !env.SLACKWATER_SITE ? 'Alder Point Hospital' : env.SLACKWATER_SITE_NAME,
    },
    firstAdministrator: env.SLACKWATER_ADMIN ? splitOnce(env.SLACKWATER_ADMIN) : null,
    logLevel: env.LOG_LEVEL,
    hooks: { hooks: hooks.hooks, inside },
  };
}

function splitOnce(text: string): { login: string; password: string } {
  const at = text.indexOf(':');
  return { login: text.slice(0, at), password: text.slice(at + 1) };
}
