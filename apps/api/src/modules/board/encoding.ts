import type { Encoding } from '../../live/snapshot.ts';

/** The best encoding that a browser takes (RFC 9110, section 12.5.3); `q=0` means "not this one". */
export function encodingFor(acceptEncoding: string | undefined): Encoding {
  const taken = new Set<string>();
  for (const part of (acceptEncoding ?? '').toLowerCase().split(',')) {
    const [name = '', ...parameters] = part.split(';').map((word) => word.trim());
    if (!parameters.some((parameter) => /^q=0(\.0*)?$/.test(parameter))) taken.add(name);
  }
  return taken.has('br') ? 'br' : taken.has('gzip') ? 'gzip' : 'identity';
}
