/**
 * Options of every session with the database: in any other zone the driver would write wrong instants, and its own
 * reading would hide it.
 */
export const UTC_SESSION = '-c TimeZone=UTC';
