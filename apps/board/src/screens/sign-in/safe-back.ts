/** An address to return to, only if it stays on this server: a link could carry a foreign one. */
export const safeBack = (back: string | null): string | null =>
  back !== null && /^\/(?![/\\])/.test(back) ? back : null;
