import { isIPv6 } from 'node:net';

/** Who a network address stands for: one host has a whole /64 of IPv6, so the first half counts. */
export function addressGroup(address: string): string {
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(address)?.[1];
  if (mapped) return mapped;
  if (!isIPv6(address)) return address;
  const [head = '', tail] = address.split('%')[0]!.split('::');
  const groups = head === '' ? [] : head.split(':');
  const after = tail === undefined || tail === '' ? [] : tail.split(':');
  const zeros = tail === undefined ? [] : Array(Math.max(0, 8 - groups.length - after.length)).fill('0');
  return `${[...groups, ...zeros, ...after]
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(':')}::/64`;
}
