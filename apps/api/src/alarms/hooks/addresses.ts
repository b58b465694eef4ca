import { BlockList, isIP } from 'node:net';

/**
 * Addresses that are no public host's: this machine, private networks, link-local ones (a cloud's metadata among
 * them), translations of any of these, and what is reserved. IANA's special-purpose registries (RFC 6890 and later).
 */
const SPECIAL_V4 = [
  '0.0.0.0/8',
  '10.0.0.0/8',
  '100.64.0.0/10',
  '127.0.0.0/8',
  '169.254.0.0/16',
  '172.16.0.0/12',
  '192.0.0.0/24',
  '192.0.2.0/24',
  '192.88.99.0/24',
  '192.168.0.0/16',
  '198.18.0.0/15',
  '198.51.100.0/24',
  '203.0.113.0/24',
  '224.0.0.0/4',
  '240.0.0.0/4',
];

/** Of IPv6 only 2000::/3 is given out to hosts of the world, and not all of that. */
const SPECIAL_V6 = ['::/3', '4000::/2', '8000::/1', '2001::/23', '2001:db8::/32', '2002::/16', '3fff::/20'];

/** A list that knows addresses and ranges, as `10.0.0.0/8` or `::1`. */
export function listOf(ranges: readonly string[]): BlockList {
  const list = new BlockList();
  for (const range of ranges) {
    const [address = '', bits] = range.split('/');
    const family = isIP(address) === 6 ? 'ipv6' : 'ipv4';
    if (bits === undefined) list.addAddress(address, family);
    else list.addSubnet(address, Number(bits), family);
  }
  return list;
}

// apart: a list of both kinds takes an IPv4 address for its IPv6 notation
const special = { ipv4: listOf(SPECIAL_V4), ipv6: listOf(SPECIAL_V6) };

/**
 * Whether a hook may be sent to an address: a public one, or one of the hospital's own that the configuration names.
 */
export function mayBeReached(address: string, inside: BlockList): boolean {
  if (isIP(address) === 0) return false;
  const family = isIP(address) === 6 ? 'ipv6' : 'ipv4';
  return inside.check(address, family) || !special[family].check(address, family);
}
