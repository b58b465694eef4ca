import type { BedsideState } from '../bedside/state.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { type Additive, sameAdditives } from './additive.ts';
import { bagFor, openBagOrders } from './bag-for.ts';

/** A bag that could also be the next one. */
export type OtherBag = { solutionId: string; fillMl: number };

/** Why the next bag is not certain, and which others it may be: somebody at the bed decides, not the tool. */
export type BagDoubt =
  /** The physician left a choice to the bedside, in these words. */
  | { why: 'condition'; condition: string }
  /** The last fill was none of the exchanges that are prescribed now, so which one comes next is not recorded. */
  | { why: 'whichItem'; others: readonly OtherBag[] }
  /** Several orders name a bag. */
  | { why: 'severalOrders'; others: readonly OtherBag[] };

/**
 * Why the bag that `bagFor` proposes may not be the one that is hung. [] = one bag alone follows from prescription,
 * orders and what was filled last.
 */
export function bagDoubts(state: BedsideState, policy: WardPolicy): readonly BagDoubt[] {
  const bag = bagFor(state, policy);
  if (bag === null) return [];
  if (bag.orderId !== null) {
    const ordered = openBagOrders(state).flatMap(({ content }): readonly Bag[] => {
      if (content.what === 'oneExchange') return [content];
      return content.what === 'rinse' ? [{ ...content, fillMl: content.volumeMl, additives: [] }] : [];
    });
    const others = otherBags(ordered, bag);
    return others.length === 0 ? [] : [{ why: 'severalOrders', others }];
  }
  const items = state.prescription?.items ?? [];
  const lastIsAmong = items.some(({ id }) => id === state.lastItemId);
  const others = lastIsAmong ? [] : otherBags(items, bag);
  const condition = items.find(({ id }) => id === bag.itemId)?.condition ?? null;
  return [
    ...(condition === null ? [] : [{ why: 'condition', condition } as const]),
    ...(others.length === 0 ? [] : [{ why: 'whichItem', others } as const]),
  ];
}

type Bag = OtherBag & { additives: readonly Additive[] };

/** Those that differ from the one that is proposed, each once. */
function otherBags(bags: readonly Bag[], proposed: Bag): readonly OtherBag[] {
  const differ = bags.filter((bag) => !isSame(bag, proposed));
  return differ
    .filter((bag, index) => differ.findIndex((like) => isSame(bag, like)) === index)
    .map(({ solutionId, fillMl }) => ({ solutionId, fillMl }));
}

const isSame = (one: Bag, other: Bag): boolean =>
  one.solutionId === other.solutionId && one.fillMl === other.fillMl && sameAdditives(one.additives, other.additives);
