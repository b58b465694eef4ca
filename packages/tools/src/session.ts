/**
 * Options of every session with the database: in any other zone the driver would write wrong instants, and its own
 * reading would hide it.
 */
export const UTC_SESSION = '-c TimeZone=UTC';

/**
 * Options of the sessions that hold a ward's rows while they work: of a process that stands still in the middle (frozen,
 * suspended, swapped out) the database gives up what it holds after so long, and the others go on.
 */
export const WORKING_SESSION = `${UTC_SESSION} -c idle_in_transaction_session_timeout=5s`;
