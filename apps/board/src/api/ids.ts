import { v7 } from 'uuid';

/** An id for something that this device makes: UUID v7, so ids of one device sort by when they were made. */
export const newId = (): string => v7();
