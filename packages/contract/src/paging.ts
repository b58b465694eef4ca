import { z } from 'zod';

/** A page of a long list: `cursor` is what the page before gave, opaque to the reader. */
export const paging = z.strictObject({
  cursor: z.string().max(200).optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
});
export type Paging = z.infer<typeof paging>;
