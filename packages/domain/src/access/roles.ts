export type Role = 'nurse' | 'chargeNurse' | 'nephrologist' | 'manager' | 'wall';

/** What an account may do; the one table stands in `access/permissions.ts`. */
export type Permission =
  /** The board without names. */
  | 'readWall'
  | 'readBoard'
  | 'readPatient'
  | 'recordExchange'
  /** The second person of a check before a fill. */
  | 'checkAdditives'
  | 'recordObservation'
  | 'correctOwn'
  | 'correctAny'
  | 'ownAlerts'
  | 'confirmEmpty'
  | 'concludeWorkUp'
  | 'telephoneOrder'
  | 'overrideGuard'
  | 'admitAndMove'
  | 'assign'
  | 'prescribe'
  | 'releaseOutbox'
  /** Which product code is which bag, and which lots are recalled. */
  | 'keepSupplies'
  /** Which devices show the ward on its walls. */
  | 'keepWalls'
  | 'changeSettings'
  | 'manageAccounts'
  | 'importExport'
  | 'readAudit';
