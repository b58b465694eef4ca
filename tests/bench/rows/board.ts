import { type Arm, compare } from '../harness/arms.ts';
import { cpuPerOperation } from '../harness/cores.ts';
import { pool } from '../harness/databases.ts';
import { askFor, type HttpClient, openClient, requestBytes } from '../harness/http-client.ts';
import type { Bench, Measure, Row } from '../harness/measure.ts';
import { type Served, serve, serveApp, signIn } from '../harness/servers.ts';
import { seedWard, WARD } from '../harness/ward.ts';

const PATIENTS = 200;
const CLIENTS = 8;
const PATH = `/api/wards/${WARD}/board`;
const USUAL_PATH = '/api/usual/board';

type Form = { name: string; headers: Readonly<Record<string, string>>; status: number };

/** The whole board of 200 patients, plain, compressed and not modified, beside two other ways to answer it. */
export const board: Row = {
  name: 'board',
  async run({ databases, pace }) {
    const database = await databases.open();
    const db = pool(database.appUrl);
    await seedWard(db, PATIENTS);
    await db.end();
    const app = await serveApp(database.appUrl);
    const usual = await serve('usual-way.ts', database.appUrl);
    try {
      const cookie = await signIn(app.url);
      const measures: Record<'toBare' | 'toUsual', Measure>[] = [];
      for (const form of formsOf(cookie)) measures.push(await measureForm(form, { app, usual, pace }));
      return [...measures.map(({ toBare }) => toBare), ...measures.map(({ toUsual }) => toUsual)];
    } finally {
      await app.stop();
      await usual.stop();
      await database.drop();
    }
  },
};

const formsOf = (cookie: string): readonly Form[] => {
  const plain = { cookie, 'accept-encoding': 'identity' };
  return [
    { name: 'plain', headers: plain, status: 200 },
    { name: 'compressed', headers: { cookie, 'accept-encoding': 'br' }, status: 200 },
    { name: '304', headers: plain, status: 304 },
  ];
};

async function measureForm(
  form: Form,
  { app, usual, pace }: { app: Served; usual: Served; pace: Bench['pace'] },
): Promise<Record<'toBare' | 'toUsual', Measure>> {
  const bare = await serve(
    'same-bytes.ts',
    new URL(PATH, app.url).href,
    JSON.stringify(await headersOf(app, PATH, form)),
  );
  const mine = await armOf(app, PATH, form);
  const same = await armOf(bare, PATH, form);
  const theirs = await armOf(usual, USUAL_PATH, form);
  try {
    const bareCompared = await compare(mine.arm, same.arm, pace);
    const bareWords = `${perSecond(bareCompared.a)} answers/s, ${mine.cpu()}; bare ${perSecond(bareCompared.b)}/s, ${same.cpu()}`;
    const usualCompared = await compare(mine.arm, theirs.arm, pace);
    const usualWords = `${perSecond(usualCompared.a)} answers/s, ${mine.cpu()}; the usual way ${perSecond(usualCompared.b)}/s, ${theirs.cpu()}`;
    return {
      toBare: {
        what: `board of ${PATIENTS}, ${form.name} ÷ bare \`node:http\``,
        value: bareCompared.ratio,
        unit: '×',
        bar: { at: 'least', value: 0.7 },
        quartiles: bareCompared.quartiles,
        beside: bareWords,
      },
      toUsual: {
        what: `board of ${PATIENTS}, ${form.name} ÷ the usual way`,
        value: usualCompared.ratio,
        unit: '×',
        bar: { at: 'least', value: 2 },
        quartiles: usualCompared.quartiles,
        beside: usualWords,
      },
    };
  } finally {
    for (const { close } of [mine, same, theirs]) close();
    await bare.stop();
  }
}

/** What a browser sends; for a 304 with the tag of the board that it has. */
async function headersOf({ url }: Served, path: string, { headers, status }: Form) {
  if (status !== 304) return headers;
  const answer = await fetch(new URL(path, url), { headers });
  return { ...headers, 'if-none-match': answer.headers.get('etag') ?? '' };
}

async function armOf(served: Served, path: string, form: Form) {
  const clients: HttpClient[] = await Promise.all(Array.from({ length: CLIENTS }, () => openClient(served.url)));
  const make = async () => requestBytes('GET', new URL(path, served.url), await headersOf(served, path, form));
  let request = await make();
  // an alarm that rises meanwhile makes another board: browsers then ask with another tag
  const onOther = async () => {
    request = await make();
  };
  const cpu = cpuPerOperation(served.pid);
  const arm: Arm = async (windowMs) => {
    request = await make();
    const startedAt = performance.now();
    const answers = await cpu.around(() => askFor(windowMs, clients, () => request, { status: form.status, onOther }));
    return (answers * 1000) / (performance.now() - startedAt);
  };
  const close = () => {
    for (const client of clients) client.close();
  };
  return { arm, cpu: cpu.words, close };
}

const perSecond = (rate: number) => Math.round(rate).toLocaleString('en');
