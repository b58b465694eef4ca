import {
  type BedsView,
  bedsView,
  newWard,
  type OtherWardsView,
  otherWardsView,
  paging,
  type SettingsHistory,
  settingsHistory,
  type WardView,
  wardView,
} from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import { readCursor, writeCursor } from '../cursor.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { versionsBefore } from './settings-history.repository.ts';
import { bedsOf, otherWards, staffOf, wardOf } from './wards.repository.ts';
import { makeWard } from './wards.usecases.ts';

const versionPlace = z.strictObject({ version: z.int32() });

export function wardRoutes(app: Router, parts: Parts) {
  const { access, pool, policies } = parts;

  app.get(
    '/api/wards/:ward',
    {
      schema: {
        summary: 'A ward, its settings and its staff',
        tags: ['wards'],
        params: wardParams,
        response: { 200: wardView },
      },
    },
    async (request): Promise<WardView> => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'readWall');
      // a wall display needs the ward's zone and settings, and nobody's name
      const [its, staff] = await Promise.all([
        wardOf(pool, policies, ward),
        ward.may('readBoard') ? staffOf(pool, ward) : [],
      ]);
      return {
        id: ward.wardId,
        name: its.name,
        hospital: its.hospital,
        zone: its.policy.zone,
        policy: its.policy,
        staff,
        demonstration: its.seededAt === null ? null : { seededAt: its.seededAt },
      };
    },
  );

  app.get(
    '/api/wards/:ward/settings',
    {
      schema: {
        summary: "The versions of a ward's settings, newest first: who changed what, from what to what",
        tags: ['wards'],
        params: wardParams,
        querystring: paging,
        response: { 200: settingsHistory },
      },
    },
    async (request): Promise<SettingsHistory> => {
      const ward = access.openWard(signedInBy(request), request.params.ward, 'readBoard');
      const { cursor, limit } = request.query;
      const below = readCursor(cursor, versionPlace)?.version ?? null;
      const versions = await versionsBefore(pool, ward, below, limit);
      const last = versions.length === limit ? versions.at(-1) : undefined;
      return { versions, nextCursor: last ? writeCursor({ version: last.version }) : null };
    },
  );

  app.get(
    '/api/wards/:ward/beds',
    {
      schema: {
        summary: 'The beds and who lies in them',
        tags: ['wards'],
        params: wardParams,
        response: { 200: bedsView },
      },
    },
    async (request): Promise<BedsView> => ({
      beds: await bedsOf(pool, access.openWard(signedInBy(request), request.params.ward, 'readBoard')),
    }),
  );

  app.get(
    '/api/wards/:ward/others',
    {
      schema: {
        summary: 'The other wards and their free beds, for a transfer',
        tags: ['wards'],
        params: wardParams,
        response: { 200: otherWardsView },
      },
    },
    async (request): Promise<OtherWardsView> => ({
      wards: await otherWards(pool, access.openWard(signedInBy(request), request.params.ward, 'admitAndMove')),
    }),
  );

  app.post(
    '/api/wards',
    {
      schema: {
        summary: 'Open a ward with its beds',
        tags: ['wards'],
        body: newWard,
        response: { 201: z.strictObject({ id: z.string() }) },
      },
    },
    async (request, reply) => {
      const site = access.openSite(signedInBy(request), 'changeSettings');
      await makeWard(parts, site, request.body, request.ip);
      return reply.code(201).send({ id: request.body.id });
    },
  );
}
