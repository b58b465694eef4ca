import { expect, it } from 'vitest';
import { listOf, mayBeReached } from './addresses.ts';

const nowhere = listOf([]);

// One address of each block of IANA's special-purpose registries (RFC 6890 and later) that is no public host's, and of
// IPv6 notations that wrap an IPv4 one.
it.each([
  '0.0.0.0',
  '10.255.0.1',
  '100.64.0.1',
  '127.0.0.1',
  '127.255.255.254',
  '169.254.169.254',
  '172.16.0.1',
  '172.31.255.255',
  '192.168.1.1',
  '198.19.0.1',
  '224.0.0.1',
  '255.255.255.255',
  '::',
  '::1',
  '::ffff:127.0.0.1',
  '::ffff:192.168.1.1',
  '::ffff:8.8.8.8',
  '64:ff9b::a00:1',
  '2002:7f00:1::',
  'fc00::1',
  'fd12:3456::1',
  'fe80::1',
  'ff02::1',
  '2001:db8::1',
  '3fff::1',
  'no address',
])('%s is not reached', (address) => {
  expect(mayBeReached(address, nowhere)).toBe(false);
});

it.each(['8.8.8.8', '172.15.255.255', '172.32.0.1', '100.128.0.1', '2606:4700::1111'])(
  '%s is a public address',
  (address) => {
    expect(mayBeReached(address, nowhere)).toBe(true);
  },
);

it('what the configuration names is reached, and no neighbour of it', () => {
  const inside = listOf(['10.20.0.0/16', '::1']);
  expect(['10.20.255.1', '::1'].every((address) => mayBeReached(address, inside))).toBe(true);
  expect(['10.21.0.1', '::2', '127.0.0.1'].some((address) => mayBeReached(address, inside))).toBe(false);
});
