/** The part of a Prisma failure that names the rule of the database that was broken. */
type Broken = { meta?: { driverAdapterError?: { cause?: { constraint?: { index?: string } } } } };

/** The name of the key or reference that a write through Prisma ran into; null when it failed for another reason. */
export const brokenConstraint = (error: unknown): string | null =>
  (error as Broken).meta?.driverAdapterError?.cause?.constraint?.index ?? null;
