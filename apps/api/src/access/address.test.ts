import { expect, it } from 'vitest';
import { addressGroup } from './address.ts';

// RFC 4291, section 2.2: the ways to write an IPv6 address; section 2.5.4: the first 64 bits name the network
it('counts a whole IPv6 network as one source, however it is written, and an IPv4 address as itself', () => {
  const network = '2001:db8:0:1::/64';
  for (const address of [
    '2001:db8:0:1::',
    '2001:0DB8:0000:0001:ab:cd:ef:1',
    '2001:db8:0:1::1%eth0',
    '2001:db8::1:0:0:0:9',
  ]) {
    expect(addressGroup(address), address).toBe(network);
  }
  expect(addressGroup('::1')).toBe('0:0:0:0::/64');
  expect(addressGroup('192.0.2.7')).toBe('192.0.2.7');
  expect(addressGroup('::ffff:192.0.2.7')).toBe('192.0.2.7');
});
