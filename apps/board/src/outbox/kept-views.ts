import type { BedsideView, WardView } from '@slackwater/contract';
import type { EpochMs } from '@slackwater/domain';
import type { Query, QueryKey } from '@tanstack/react-query';
import { serverClock } from '../api/clock.ts';
import { wardQuery } from '../api/queries.ts';
import { queryClient } from '../api/query-client.ts';
import { reached } from '../api/reach.ts';
import { findHolder, type Holder } from './holder.ts';
import { seal, unseal } from './seal.ts';

const VIEW_FORMAT = 1;

type KeptView = { value: unknown; heardAt: EpochMs; aheadOfWallMs: number };

/** What a bedside stands on; nothing else is kept on the device. */
const KEPT: readonly ((key: QueryKey) => boolean)[] = [
  ([first, ...rest]) => first === 'session' && rest.length === 0,
  ([first]) => first === 'ward',
  ([first, , what]) => first === 'patient' && (what === 'bedside' || what === 'entries' || what === 'drain-learning'),
];

const isKept = (key: QueryKey): boolean => KEPT.some((one) => one(key));
const nameOf = (key: QueryKey): string => JSON.stringify(key);
const bindingOf = ({ accountId, device }: Holder, name: string) => ({
  accountId,
  device,
  format: VIEW_FORMAT,
  what: `view ${name}`,
});

const keep = async (key: QueryKey, value: unknown): Promise<void> => {
  const holder = await findHolder();
  if (!holder) return;
  const name = nameOf(key);
  const now = serverClock.now();
  const view: KeptView = { value, heardAt: now, aheadOfWallMs: now - Date.now() };
  const sealed = await seal(holder.key, bindingOf(holder, name), view);
  await holder.store.put('views', { ...sealed, accountId: holder.accountId, name, format: VIEW_FORMAT });
};

/** Keeps, sealed, what the server said last of everything that a bedside needs. @returns how to stop */
export const keepViews = (): (() => void) => {
  const cache = queryClient.getQueryCache();
  const look = ({ queryKey, state }: Query) => {
    // What came out of the store itself, as old as it is, is no newer word.
    if (!isKept(queryKey) || state.data === undefined || reached.current().down) return;
    // A full disk keeps nothing more: the screens say how old what they show is.
    void keep(queryKey, state.data).catch(() => {});
  };
  for (const query of cache.getAll()) look(query);
  return cache.subscribe((event) => {
    if (event.type === 'updated' && event.action.type === 'success') look(event.query);
  });
};

/** What was kept under a query's key, with when it was heard; null where nothing was, or nobody may open it. */
export const keptView = async (key: QueryKey): Promise<{ value: unknown; heardAt: EpochMs } | null> => {
  try {
    const holder = await findHolder();
    const row = await holder?.store.get('views', [holder.accountId, nameOf(key)]);
    if (!holder || !row || row.format !== VIEW_FORMAT) return null;
    const view = (await unseal(holder.key, bindingOf(holder, row.name), row)) as KeptView;
    serverClock.assume(view.aheadOfWallMs);
    return { value: view.value, heardAt: view.heardAt };
  } catch {
    return null;
  }
};

/** The bedsides that this device can show without network: each with its ward, whose time it shows. */
export const keptBedsides = async () => {
  const holder = await findHolder();
  const rows = holder ? await holder.store.getAll('views') : [];
  const found = [];
  for (const { name } of rows) {
    const key = JSON.parse(name) as QueryKey;
    if (key[0] !== 'patient' || key[2] !== 'bedside') continue;
    const kept = await keptView(key);
    if (!kept) continue;
    const view = kept.value as BedsideView;
    const ward = (await keptView(wardQuery(view.wardId).queryKey))?.value as WardView | undefined;
    if (ward) found.push({ view, zone: ward.zone, heardAt: kept.heardAt });
  }
  return found;
};
