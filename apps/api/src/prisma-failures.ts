/** The parts of a Prisma failure that say which rule of the database was broken. */
type Broken = {
  code?: string;
  meta?: { driverAdapterError?: { cause?: { constraint?: { fields?: readonly string[]; index?: string } } } };
};

/** The columns of the unique key that a write ran into; null when it failed for another reason. */
export function takenKey(error: unknown): readonly string[] | null {
  const { code, meta } = error as Broken;
  if (code !== 'P2002') return null;
  const constraint = meta?.driverAdapterError?.cause?.constraint;
  return (constraint?.fields ?? [constraint?.index ?? '']).map((field) => field.replaceAll('"', ''));
}

/** Whether a write named a row that does not exist. */
export const namesNoRow = (error: unknown): boolean => (error as Broken).code === 'P2003';
