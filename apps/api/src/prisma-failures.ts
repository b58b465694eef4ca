/** The part of a Prisma failure that says what the database itself said. */
type Broken = {
  meta?: { driverAdapterError?: { cause?: { originalCode?: string; constraint?: { index?: string } } } };
};

/** The name of the key or reference that a write through Prisma ran into; null when it failed for another reason. */
export const brokenConstraint = (error: unknown): string | null =>
  (error as Broken).meta?.driverAdapterError?.cause?.constraint?.index ?? null;

/** The database's own code of a failure (SQLSTATE) that came through Prisma; null where there is none. */
export const codeBehind = (error: unknown): string | null =>
  (error as Broken).meta?.driverAdapterError?.cause?.originalCode ?? null;
