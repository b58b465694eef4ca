import type { WardView } from '@slackwater/contract';

/** The last word of a name, as colleagues say it: "Nimal Perera" → "Perera". */
export const familyName = (name: string): string => name.trim().split(/\s+/).at(-1) ?? name;

/** Short names of a ward's staff by account; two of one family name keep an initial. */
export const shortNames = (staff: WardView['staff']): ReadonlyMap<string, string> => {
  const holders = Map.groupBy(staff, ({ name }) => familyName(name));
  return new Map(
    staff.map(({ accountId, name }) => {
      const family = familyName(name);
      const alone = new Set(holders.get(family)?.map((one) => one.accountId)).size === 1;
      return [accountId, alone ? family : `${name.trim().charAt(0)} ${family}`];
    }),
  );
};
