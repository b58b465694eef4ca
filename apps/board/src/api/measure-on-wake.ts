import { whenInSight } from '../ui/when-in-sight.ts';
import { api } from './client.ts';

/**
 * Asks for the ward's time whenever the page comes back into sight: on some devices the clock that a page counts on
 * stands still while they sleep. Who is not signed in, or has no line, counts nothing down.
 */
export const measureOnWake = (): void => {
  whenInSight(() => void api.get('/api/session').catch(() => undefined));
};
