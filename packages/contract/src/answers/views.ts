import type { PatientIdentity } from '@slackwater/domain';
import { z } from 'zod';
import { AUDIT_KINDS, type AuditPage } from '../audit.ts';
import { type EntriesAnswer, entryReceipt } from '../entries/batch.ts';
import { OBSERVATION_PAYLOADS } from '../entries/observations.ts';
import {
  type AdmissionAnswer,
  type BedsideView,
  type DrainLearningView,
  type EntryPage,
  type PrescriptionsView,
  patientIdentity,
  type RoundsView,
} from '../patients.ts';
import type { BedsView, PatientsView, SettingsHistory } from '../wards.ts';
import { bedsideState } from './bedside.ts';
import { at, atOrNull, balance, dwell, id, idOrNull } from './cavity.ts';
import { order, revision } from './prescription.ts';

export const entriesAnswer: z.ZodType<EntriesAnswer> = z
  .strictObject({ receipts: z.array(entryReceipt), bedside: bedsideState.nullable(), position: z.int() })
  .meta({ id: 'EntriesAnswer' });

export const patientAnswer: z.ZodType<PatientIdentity> = patientIdentity.meta({ id: 'PatientIdentity' });

export const admissionAnswer: z.ZodType<AdmissionAnswer> = z
  .strictObject({ patient: patientAnswer, receipt: entryReceipt, bedside: bedsideState })
  .meta({ id: 'AdmissionAnswer' });

export const bedsideView: z.ZodType<BedsideView> = z
  .strictObject({
    patient: patientAnswer,
    wardId: id,
    bed: z.string().nullable(),
    state: bedsideState,
    position: z.int(),
    likeNameBeds: z.array(z.string()),
  })
  .meta({ id: 'BedsideView' });

export const roundsView: z.ZodType<RoundsView> = z
  .strictObject({
    dwells: z.array(dwell),
    days: z.array(z.strictObject({ date: z.string(), balance })),
    weights: z.array(OBSERVATION_PAYLOADS.weight.extend({ at })),
    bloodPressures: z.array(OBSERVATION_PAYLOADS.bloodPressure.extend({ at })),
    otherFluids: z.array(OBSERVATION_PAYLOADS.otherFluid.extend({ at })),
  })
  .meta({ id: 'RoundsView' });

export const prescriptionsView: z.ZodType<PrescriptionsView> = z
  .strictObject({ revisions: z.array(revision), orders: z.array(order), names: z.record(z.string(), z.string()) })
  .meta({ id: 'PrescriptionsView' });

export const patientsView: z.ZodType<PatientsView> = z
  .strictObject({
    patients: z.array(z.strictObject({ patient: patientAnswer, wardId: idOrNull, bed: z.string().nullable() })),
  })
  .meta({ id: 'PatientsView' });

export const bedsView: z.ZodType<BedsView> = z
  .strictObject({ beds: z.array(z.strictObject({ bed: z.string(), patientId: idOrNull })) })
  .meta({ id: 'BedsView' });

export const auditPage: z.ZodType<AuditPage> = z
  .strictObject({
    events: z.array(
      z.strictObject({
        id,
        at: z.int(),
        what: z.enum(AUDIT_KINDS),
        accountId: idOrNull,
        accountName: z.string().nullable(),
        wardId: idOrNull,
        patientId: idOrNull,
        hospitalNumber: z.string().nullable(),
        address: z.string().nullable(),
        detail: z.record(z.string(), z.unknown()),
      }),
    ),
    nextCursor: z.string().nullable(),
  })
  .meta({ id: 'AuditPage' });

/** Of any kind, also those that the tool itself writes: `payload` is that of its kind. */
const entryView = z
  .strictObject({
    id,
    kind: z.string(),
    format: z.literal(1),
    payload: z.record(z.string(), z.unknown()),
    patientId: idOrNull,
    visitId: idOrNull,
    happenedAt: at,
    after: idOrNull,
    siteId: id,
    wardId: id,
    deviceAt: atOrNull,
    receivedAt: at,
    author: idOrNull,
    position: z.int(),
    authorName: z.string().nullable(),
    releasedByName: z.string().nullable(),
    correctedBy: idOrNull,
    retractedBy: idOrNull,
  })
  .meta({ id: 'EntryView' });

export const entryPage = z
  .strictObject({ entries: z.array(entryView), nextCursor: z.string().nullable() })
  .meta({ id: 'EntryPage' }) as unknown as z.ZodType<EntryPage>;

const learnedNumbers = z.array(z.number());
export const drainLearningView = z
  .strictObject({
    estimator: z.strictObject({
      drains: z.int(),
      deviations: learnedNumbers,
      covariance: z.array(learnedNumbers),
      noise: z.strictObject({ priorVarianceMl2: z.number(), weight: z.number(), sumMl2: z.number() }),
      noiseByLength: z.array(z.strictObject({ prior: z.number(), weight: z.number(), sum: z.number() })),
    }),
    passedOver: z.array(z.strictObject({ dwellId: id, because: z.string() })),
  })
  .meta({ id: 'DrainLearning' }) as unknown as z.ZodType<DrainLearningView>;

const settingValue = z.union([z.number(), z.string()]).nullable();

export const settingsHistory: z.ZodType<SettingsHistory> = z
  .strictObject({
    versions: z.array(
      z.strictObject({
        version: z.int(),
        at,
        by: z.string().nullable(),
        changes: z.array(z.strictObject({ key: z.string(), from: settingValue, to: settingValue })),
      }),
    ),
    nextCursor: z.string().nullable(),
  })
  .readonly();
