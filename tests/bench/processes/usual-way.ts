// node usual-way.ts DATABASE_URL: the board as it is usually served, in the same app, behind the same session: one ORM
// query with its relation, rows made when asked for, the answer serialised by Fastify from a schema, compressed and tagged
// as the usual plugins do it.
import { createHash } from 'node:crypto';
import { promisify } from 'node:util';
import { brotliCompress, constants } from 'node:zlib';
import { PrismaPg } from '@prisma/adapter-pg';
import { buildApp } from '@slackwater/api/app';
import { createPolicies } from '@slackwater/api/record/policies';
import { type BedsideState, boardRow, likeNames, type PatientIdentity } from '@slackwater/domain';
import fastJsonStringify, { type Schema } from 'fast-json-stringify';
import { type Patient, PrismaClient } from '../../../prisma/generated/client.ts';
import { SITE, WARD } from '../harness/ward.ts';
import { schemaOf } from './infer-schema.ts';
import { tell } from './listen.ts';

const [databaseUrl] = process.argv.slice(2);
const { server, pool } = await buildApp({
  databaseUrl: databaseUrl!,
  siteId: SITE,
  https: false,
  boardFolder: null,
  build: 'bench',
  fastify: { logger: false },
  watchAlarms: false,
});
const prisma = new PrismaClient({ adapter: new PrismaPg(pool) });
const policies = createPolicies();
const brotli = promisify(brotliCompress);

/** By the index on site and ward; the patient by its primary key. */
async function readBoard() {
  const [counter, ward, site, bedsides] = await Promise.all([
    prisma.wardCounter.findUniqueOrThrow({ where: { siteId_wardId: { siteId: SITE, wardId: WARD } } }),
    prisma.ward.findUniqueOrThrow({ where: { siteId_id: { siteId: SITE, id: WARD } } }),
    prisma.site.findUniqueOrThrow({ where: { id: SITE } }),
    prisma.bedside.findMany({
      where: { siteId: SITE, wardId: WARD },
      select: { version: true, state: true, patient: true },
    }),
  ]);
  const versions = { settingsVersion: ward.settingsVersion, formularyVersion: site.formularyVersion };
  const policy = await policies.of(pool, SITE, WARD, versions);
  const patients = bedsides.map(({ patient }) => identityOf(patient));
  const states = bedsides.map(({ state }) => state as unknown as BedsideState);
  const like = likeNames(patients);
  const bedOf = new Map(patients.map(({ id }, index) => [id, states[index]!.stay?.bed ?? '']));
  const rows = bedsides.map(({ version }, index) => {
    const patient = patients[index]!;
    const likeNameBeds = (like.get(patient.id) ?? []).map((id) => bedOf.get(id)!);
    return boardRow(states[index]!, patient, policy, { version, likeNameBeds });
  });
  return { wardId: WARD, position: counter.position, rows };
}

const identityOf = ({ id, family, given, dateOfBirth, gender, hospitalNumber, ...rest }: Patient): PatientIdentity => ({
  id,
  family,
  given,
  dateOfBirth: dateOfBirth.toISOString().slice(0, 10),
  gender,
  hospitalNumber,
  allergy: rest.allergy,
  isolation: rest.isolation,
  cautions: rest.cautions,
});

// the schema that somebody would have written by hand, told from what the board holds now
const serialise = fastJsonStringify(schemaOf([await readBoard()]) as Schema);

server.get('/api/usual/board', async (request, reply) => {
  const text = serialise(await readBoard());
  const etag = `"${createHash('sha1').update(text).digest('base64')}"`;
  reply.header('etag', etag).header('cache-control', 'private, no-cache').type('application/json; charset=utf-8');
  if (request.headers['if-none-match'] === etag) return reply.code(304).send();
  if (!request.headers['accept-encoding']?.includes('br')) return reply.send(text);
  const body = await brotli(text, { params: { [constants.BROTLI_PARAM_QUALITY]: 4 } });
  return reply.header('content-encoding', 'br').send(body);
});
await server.listen({ port: 0, host: '127.0.0.1' });
tell(server.server);
