import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { INLINE_STYLES } from './browser-rules.ts';

it('allows just the inline styles that the installed react-aria writes', () => {
  const root = dirname(createRequire(import.meta.url).resolve('react-aria/package.json'));
  const written = ['interactions/usePress.mjs', 'overlays/usePreventScroll.mjs'].map((file) => {
    const source = readFileSync(join(root, 'dist/private', file), 'utf8');
    const text = /style\.textContent = `([^`]*)`\.trim\(\)/.exec(source)?.[1] ?? 'no style';
    return text.replace(/\$\{[^}]*PRESSABLE_ATTRIBUTE\}/, 'data-react-aria-pressable').trim();
  });
  expect(written).toEqual(INLINE_STYLES);
});
