import { randomUUID } from 'node:crypto';
import type { PatientIdentity } from '@slackwater/domain';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { admitted, type Browser, boardAt, draft, type Hospital, identity, openHospital, send } from './hospital.ts';

let hospital: Hospital;
let charge: Browser;
let nurse: Browser;
let merlin: Browser;
let bed = 0;

beforeAll(async () => {
  hospital = await openHospital({ beds: 30 });
  charge = await hospital.signedIn('charge');
  nurse = await hospital.signedIn('nurse');
  merlin = await hospital.signedIn('merlin-charge');
});
afterAll(() => hospital.close());

const nextBed = () => {
  bed += 1;
  return String(bed);
};

const admission = (patient: PatientIdentity, into = nextBed()) => ({
  identity: patient,
  wardId: 'kestrel',
  deviceAt: Date.now(),
  admission: draft(
    'admitted',
    { bed: into, inside: { cavity: 'notKnown' }, dialysis: 'chronic' },
    { patientId: patient.id },
  ),
});

describe('an admission', () => {
  it('makes the patient known and gives the bed', async () => {
    const patient = { ...identity('Thrift', 'Bea'), allergy: 'chlorhexidine', cautions: ['falls'] };
    const request = admission(patient);
    const answer = await charge.post('/api/patients', request);
    expect(answer).toMatchObject({ status: 201, body: { patient, receipt: { id: request.admission.id } } });
    const { body } = await nurse.get(`/api/patients/${patient.id}/bedside`);
    expect(body).toMatchObject({
      patient,
      wardId: 'kestrel',
      bed: request.admission.payload.bed,
      state: { cavity: { state: 'unknown' }, visit: null },
    });
    const board = await boardAt(nurse, 'kestrel', body.position);
    expect(board.body.rows.map((row: { patient: unknown }) => row.patient)).toContainEqual(patient);
  });

  it('sent twice admits once', async () => {
    const request = admission(identity('Yarrow'));
    const [first, second] = [await charge.post('/api/patients', request), await charge.post('/api/patients', request)];
    expect(second.status).toBe(201);
    expect(second.body.receipt).toEqual(first.body.receipt);
  });

  it('into a bed that is taken is refused, and goes on with another bed', async () => {
    const taken = nextBed();
    await admitted(charge, 'kestrel', taken);
    const patient = identity('Sorrel');
    expect(await charge.post('/api/patients', admission(patient, taken))).toMatchObject({
      status: 409,
      body: { code: 'taken' },
    });
    expect((await charge.post('/api/patients', admission(patient))).status).toBe(201);
  });

  it('needs a hospital number that no other patient has', async () => {
    const first = identity('Campion');
    await charge.post('/api/patients', admission(first));
    const second = { ...identity('Campion'), hospitalNumber: first.hospitalNumber };
    expect(await charge.post('/api/patients', admission(second))).toMatchObject({
      status: 409,
      body: { code: 'taken', errors: [{ field: 'hospitalNumber', value: first.hospitalNumber }] },
    });
  });

  it('is for the patient that it names, and for nobody under a borrowed id', async () => {
    const [one, another] = [identity('Teasel'), identity('Burdock')];
    const crossed = { ...admission(one), admission: admission(another).admission };
    expect(await charge.post('/api/patients', crossed)).toMatchObject({
      status: 400,
      body: { errors: [{ field: 'admission.patientId' }] },
    });
    await charge.post('/api/patients', admission(one));
    expect(await charge.post('/api/patients', admission({ ...another, id: one.id }))).toMatchObject({
      status: 409,
      body: { code: 'idTaken' },
    });
  });

  it('with a day of birth that is no day is refused with the range', async () => {
    for (const dateOfBirth of ['1950-02-30', '1879-12-31', '28.02.1950']) {
      const answer = await charge.post('/api/patients', admission({ ...identity('Clover'), dateOfBirth }));
      expect(answer, dateOfBirth).toMatchObject({
        status: 400,
        body: { errors: [{ field: 'identity.dateOfBirth', value: dateOfBirth }] },
      });
    }
  });
});

describe('an identity', () => {
  it('that is put right is right on the board, and the record says what was changed, not to what', async () => {
    const patient = identity('Mugwrt');
    await charge.post('/api/patients', admission(patient));
    const { position: before } = (await nurse.get(`/api/patients/${patient.id}/bedside`)).body;
    await boardAt(nurse, 'kestrel', before);
    const answer = await charge.patch(`/api/patients/${patient.id}`, { family: 'Mugwort', isolation: 'contact' });
    expect(answer).toMatchObject({ status: 200, body: { ...patient, family: 'Mugwort', isolation: 'contact' } });

    await boardAt(nurse, 'kestrel', before + 1);
    const delta = await nurse.get(`/api/wards/kestrel/board?since=${before}`);
    expect(delta.body.rows).toHaveLength(1);
    expect(delta.body.rows[0].patient).toEqual(answer.body);
    const { body } = await nurse.get(`/api/patients/${patient.id}/entries?limit=1`);
    expect(body.entries[0]).toMatchObject({
      kind: 'identityChanged',
      payload: { fields: ['family', 'isolation'] },
      authorName: 'Name of charge',
    });
    expect(JSON.stringify(body)).not.toContain('Mugw');
  });

  it('cannot take the hospital number of another', async () => {
    const [one, another] = [identity('Comfrey'), identity('Borage')];
    for (const patient of [one, another]) await charge.post('/api/patients', admission(patient));
    const answer = await charge.patch(`/api/patients/${one.id}`, { hospitalNumber: another.hospitalNumber });
    expect(answer).toMatchObject({ status: 409, body: { code: 'taken', errors: [{ field: 'hospitalNumber' }] } });
    expect((await nurse.get(`/api/patients/${one.id}/bedside`)).body.patient).toEqual(one);
  });
});

describe('like names', () => {
  it('are told at both bedsides', async () => {
    const beds = [nextBed(), nextBed()];
    const [one, other] = [identity('Ragwort', 'Ina'), identity('Ragged', 'Ivo')];
    await charge.post('/api/patients', admission(one, beds[0]));
    await charge.post('/api/patients', admission(other, beds[1]));
    expect((await nurse.get(`/api/patients/${one.id}/bedside`)).body.likeNameBeds).toEqual([beds[1]]);
    expect((await nurse.get(`/api/patients/${other.id}/bedside`)).body.likeNameBeds).toEqual([beds[0]]);
  });
});

describe('a search', () => {
  const found = async (browser: Browser, ward: string, words: string) =>
    (await browser.get(`/api/wards/${ward}/patients?search=${encodeURIComponent(words)}`)).body.patients.map(
      ({ patient }: { patient: { family: string } }) => patient.family,
    );

  it('finds by the beginning of a name or number, whatever the case', async () => {
    const patient = identity('Quillwort', 'Wanda');
    await charge.post('/api/patients', admission(patient));
    for (const words of ['quill', 'QUILLWORT W', 'wand', patient.hospitalNumber.slice(0, 8)]) {
      expect(await found(nurse, 'kestrel', words), words).toEqual(['Quillwort']);
    }
    expect(await found(nurse, 'kestrel', 'uillwort')).toEqual([]);
  });

  it('takes % and _ for what they are', async () => {
    expect(await found(nurse, 'kestrel', '%%')).toEqual([]);
    expect(await found(nurse, 'kestrel', '__')).toEqual([]);
  });

  it('shows patients of other wards to who may admit, and to nobody else', async () => {
    await charge.post('/api/patients', admission(identity('Zinnia')));
    expect(await found(merlin, 'merlin', 'zinn')).toEqual(['Zinnia']);
    expect(await found(await hospital.signedIn('merlin-nurse'), 'merlin', 'zinn')).toEqual([]);
  });

  it('needs two characters', async () => {
    const answer = await nurse.get('/api/wards/kestrel/patients?search=q');
    expect(answer).toMatchObject({ status: 400, body: { errors: [{ field: 'search', value: 'q' }] } });
  });
});

describe('a transfer', () => {
  it('hands the patient, and the right to look, to the other ward', async () => {
    const patientId = await admitted(charge, 'kestrel', nextBed(), 'Vetch');
    const now = Date.now();
    const out = draft('transferredOut', { toWardId: 'merlin' }, { patientId, happenedAt: now });
    const into = draft('transferredIn', { fromWardId: 'kestrel', bed: '7' }, { patientId, happenedAt: now });
    expect((await send(charge, 'kestrel', out, into)).status).toBe(200);

    expect((await nurse.get(`/api/patients/${patientId}/bedside`)).status).toBe(404);
    expect(await merlin.get(`/api/patients/${patientId}/bedside`)).toMatchObject({
      status: 200,
      body: { wardId: 'merlin', bed: '7' },
    });
    const beds = (await merlin.get('/api/wards/merlin/beds')).body.beds;
    expect(beds).toContainEqual({ bed: '7', patientId });
  });
});

describe('a patient who was discharged', () => {
  it('stays readable for the last ward, lies in no bed, and may come again to any ward', async () => {
    const patientId = await admitted(charge, 'kestrel', nextBed(), 'Lovage');
    await send(charge, 'kestrel', draft('discharged', { to: 'home', handover: null }, { patientId }));
    expect(await nurse.get(`/api/patients/${patientId}/bedside`)).toMatchObject({
      status: 200,
      body: { wardId: 'kestrel', bed: null, state: { stay: null } },
    });
    expect((await merlin.get(`/api/patients/${patientId}/bedside`)).status).toBe(404);
    const weight = draft('weight', { weightKg: 70, cavity: 'empty' }, { patientId });
    expect((await send(merlin, 'merlin', weight)).status).toBe(422);

    const again = draft('admitted', { bed: '9', inside: { cavity: 'empty' }, dialysis: 'acute' }, { patientId });
    expect((await send(merlin, 'merlin', again)).status).toBe(200);
    expect((await nurse.get(`/api/patients/${patientId}/bedside`)).status).toBe(404);
  });

  it('who never was is not found', async () => {
    expect((await nurse.get(`/api/patients/${randomUUID()}/bedside`)).status).toBe(404);
    expect((await nurse.get('/api/patients/not-an-id/bedside')).status).toBe(400);
  });
});
